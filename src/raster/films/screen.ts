import { blueNoise, MASK_SIDE } from '../../core/halftone/blueNoise.ts'
import type { Halftone } from '../../core/halftone/halftone.ts'
import { dotScreen } from './dotScreen.ts'

/** Turns rows of tones into rows of bits; a row's place on the film decides where its dots stand. */
export type Screen = Readonly<{
  /**
   * @param y the row on the film, 0 at its top
   * @param tones 0 … 65 535 (solid), one a pixel
   * @param bits one row, its first pixel in the highest bit, 1 for black; written whole
   */
  row: (y: number, tones: Uint16Array, bits: Uint8Array) => void
}>

/** @param pixelUm side of the film's pixels */
export function screenOf(halftone: Halftone, { pixelUm }: Readonly<{ pixelUm: number }>): Screen {
  return halftone.kind === 'dot' ? dotScreen(halftone, { pixelUm }) : maskScreen(halftone, pixelUm)
}

/** Without a halftone a pixel is black from half a tone up. */
export function solidScreen(): Screen {
  return {
    row: (_, tones, bits) => {
      for (let from = 0, at = 0; from < tones.length; from += 8, at++) {
        const to = Math.min(from + 8, tones.length)
        let byte = 0
        for (let x = from; x < to; x++) byte = (byte << 1) | (tones[x] >>> 15)
        bits[at] = byte << (from + 8 - to)
      }
    },
  }
}

/** Dots of one size, scattered: a mask laid over the film again and again. */
function maskScreen(
  { seed, dotUm }: Extract<Halftone, { kind: 'stochastic' }>,
  pixelUm: number,
): Screen {
  const thresholds = blueNoise({ seed })
  const dotPx = Math.max(1, Math.round((dotUm ?? pixelUm) / pixelUm))
  return {
    row: (y, tones, bits) => {
      const first = (Math.floor(y / dotPx) % MASK_SIDE) * MASK_SIDE
      let [column, within] = [0, 0]
      for (let from = 0, at = 0; from < tones.length; from += 8, at++) {
        const to = Math.min(from + 8, tones.length)
        let byte = 0
        for (let x = from; x < to; x++) {
          byte = (byte << 1) | (thresholds[first + column] < tones[x] ? 1 : 0)
          within += 1
          if (within === dotPx) {
            within = 0
            column = (column + 1) % MASK_SIDE
          }
        }
        bits[at] = byte << (from + 8 - to)
      }
    },
  }
}
