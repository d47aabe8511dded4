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
  /** Thresholds of whole rows of the film, as many as the mask is high. */
  const lines: (Uint16Array | undefined)[] = []
  return {
    row: (y, tones, bits) => {
      const at = Math.floor(y / dotPx) % MASK_SIDE
      let line = lines[at]
      if (line === undefined || line.length !== tones.length) {
        const first = at * MASK_SIDE
        line = Uint16Array.from(
          { length: tones.length },
          (_, x) => thresholds[first + (Math.floor(x / dotPx) % MASK_SIDE)],
        )
        lines[at] = line
      }
      compare(line, tones, bits)
    },
  }
}

/** Black where the threshold is below the tone. */
function compare(line: Uint16Array, tones: Uint16Array, bits: Uint8Array): void {
  const width = tones.length
  const whole = width - (width % 8)
  let at = 0
  for (let x = 0; x < whole; x += 8, at++) {
    bits[at] =
      (line[x] < tones[x] ? 0x80 : 0) |
      (line[x + 1] < tones[x + 1] ? 0x40 : 0) |
      (line[x + 2] < tones[x + 2] ? 0x20 : 0) |
      (line[x + 3] < tones[x + 3] ? 0x10 : 0) |
      (line[x + 4] < tones[x + 4] ? 8 : 0) |
      (line[x + 5] < tones[x + 5] ? 4 : 0) |
      (line[x + 6] < tones[x + 6] ? 2 : 0) |
      (line[x + 7] < tones[x + 7] ? 1 : 0)
  }
  if (whole === width) return
  let byte = 0
  for (let x = whole; x < width; x++) byte |= line[x] < tones[x] ? 0x80 >> (x - whole) : 0
  bits[at] = byte
}
