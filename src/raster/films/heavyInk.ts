import { type ToneBand, toneBand } from './toneBand.ts'

/** The most ink at one place, in solids; and where there is more than a limit, null where nowhere. */
export type HeavyInk = Readonly<{ most: number; above: ToneBand | null }>

/** Rounding to 256 tones a plate is no ink. */
const ROUNDING = 0.01

/**
 * How much ink lies together at each place of a print.
 *
 * @param plates of the inks, 0 … 255 a place, row by row
 * @param limit in solids
 */
export function heavyInk(
  plates: readonly Uint8Array[],
  { widthPx, heightPx, limit }: Readonly<{ widthPx: number; heightPx: number; limit: number }>,
): HeavyInk {
  const isAbove = new Uint8Array(widthPx * heightPx)
  const least = 255 * (limit + ROUNDING)
  let most = 0
  for (let at = 0; at < isAbove.length; at++) {
    let sum = 0
    for (const plate of plates) sum += plate[at]
    if (sum > most) most = sum
    if (sum > least) isAbove[at] = 1
  }
  return { most: most / 255, above: toneBand(isAbove, { widthPx, heightPx, from: 1, to: 1 }) }
}
