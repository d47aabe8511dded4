import { SOLID } from '../../core/halftone/solid.ts'
import type { FilmPlan } from '../../core/separation/plan.ts'
import { rowBytesOf } from '../../formats/bilevel.ts'
import type { Screen } from '../../raster/films/screen.ts'

/** Paler than this a screen may have no pixel for a dot; of 255. */
const PALE = 8
/** So many dots of any ruling lie on a patch of so many pixels a side. */
const PATCH_PX = 256

/**
 * Whether a film of these tones stays empty: nothing on it is dark enough for a dot, or without dots
 * for black.
 *
 * @param tones made small, 0 … 255
 * @param screenOf asked for only where tones are so pale that it decides
 * @limits a speck far smaller than a pixel of the tones is not seen
 */
export function isEmptyPlate(
  tones: Uint8Array,
  { halftone, mode }: Pick<FilmPlan, 'halftone' | 'mode'>,
  screenOf: () => Screen,
): boolean {
  let most = 0
  for (const tone of tones) if (tone > most) most = tone
  if (most === 0) return true
  // edges of flat colours are decided at the film's own pixels
  if (mode === 'line') return false
  if (halftone === null) return most < 128
  return most < PALE && !draws(screenOf(), Math.round((most / 255) * SOLID))
}

function draws(screen: Screen, tone: number): boolean {
  const row = new Uint16Array(PATCH_PX).fill(tone)
  const bits = new Uint8Array(rowBytesOf({ widthPx: PATCH_PX }))
  for (let y = 0; y < PATCH_PX; y++) {
    screen.row(y, row, bits)
    if (bits.some((byte) => byte > 0)) return true
  }
  return false
}
