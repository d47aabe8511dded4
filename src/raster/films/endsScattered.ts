import { SOLID } from '../../core/halftone/cellThresholds.ts'
import type { Halftone } from '../../core/halftone/halftone.ts'
import { endsDotUm } from '../../core/halftone/scatteredDot.ts'
import type { ToneRange } from '../../core/separation/plan.ts'
import { type Screen, screenOf } from './screen.ts'

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
  const scattered = screenOf({ kind: 'stochastic', seed: SEED, dotUm }, { pixelUm })
  const [low, high] = [Math.round(least * SOLID), Math.round(most * SOLID)]
  let other = new Uint8Array(0)
  return {
    row: (y, row, bits) => {
      dots.row(y, row, bits)
      if (!hasEnds(row, low, high)) return
      if (other.length !== bits.length) other = new Uint8Array(bits.length)
      scattered.row(y, row, other)
      for (let x = 0; x < row.length; x++) {
        if (row[x] >= low && row[x] <= high) continue
        const mask = 0x80 >> (x & 7)
        const at = x >> 3
        bits[at] = (bits[at] & ~mask) | (other[at] & mask)
      }
    },
  }
}

function hasEnds(row: Uint16Array, low: number, high: number): boolean {
  for (const tone of row) {
    if ((tone > 0 && tone < low) || (tone > high && tone < SOLID)) return true
  }
  return false
}
