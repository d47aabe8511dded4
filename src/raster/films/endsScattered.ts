import type { Halftone } from '../../core/halftone/halftone.ts'
import { endsDotUm } from '../../core/halftone/scatteredDot.ts'
import { SOLID } from '../../core/halftone/solid.ts'
import type { ToneRange } from '../../core/separation/plan.ts'
import { maskDrawing, maskPattern, type Screen, screenFrom, screenOf } from './screen.ts'

/** Always the same scatter: films of one plan are the same to the byte. */
const SEED = 1

/**
 * The screen of a halftone, whose palest and fullest tones are made of scattered dots where the
 * range asks for it: as wide as the smallest that the fabric holds, fewer of them instead of smaller.
 *
 * @param tones null: dots all the way
 */
export function endsScattered(
  halftone: Halftone,
  { pixelUm, tones }: Readonly<{ pixelUm: number; tones: ToneRange | null }>,
): Screen {
  const dots = screenOf(halftone, { pixelUm })
  const { least = 0, most = 1, scatters = false } = tones ?? {}
  if (!scatters || halftone.kind !== 'dot') return dots
  const dotUm = endsDotUm(halftone, { least, most })
  const scattered = maskDrawing(maskPattern({ seed: SEED, dotUm }, { pixelUm, table: dots.table }))
  const [low, high] = [least, most].map((share) => {
    const tone = Math.round(share * SOLID)
    return dots.table?.[tone] ?? tone
  })
  return screenFrom(
    (rows, widthPx) => {
      const [one, other] = [dots.drawing(rows, widthPx), scattered(rows, widthPx)]
      if (one === null || other === null) return null
      return (y, row) => {
        const bits = one(y, row)
        rows.takeEnds(row, { low, high }, { bits, other: () => other(y, row) })
        return bits
      }
    },
    { table: dots.table },
  )
}
