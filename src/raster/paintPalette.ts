import type { PictureInks, Rgb } from './stencilPicture.ts'

/**
 * What a shown pixel looks like is looked up by 16 bits: its sign (which phase of the threads it
 * lies on, and whether at a mark's edge), what becomes of four quarters of it, how much of it is
 * mark. The first and the last stay while a dose moves; the middle comes from the dose's table.
 */
export const SIGN_SHIFT = 11
export const COMBO_SHIFT = 5
export const COVERS = 32
/** Phases of the threads. */
export const PHASES = 12
/** Signs of mark pixels: phase, and EDGE more at an edge; of ground: phase of the threads across. */
export const EDGE = 16
/** Ground beside a mark shows no threads across: it is only the mark's own edge. */
export const BESIDE_MARK = 12
export const OUTSIDE = 13

/** How many quarters of a cell met each fate; they add up to 4. */
export type Quarters = Readonly<{ open: number; veiled: number; soft: number; closed: number }>

/** One quarter of a state counts so much; the sum of four names a combination. */
export const STATE_STEPS: readonly [open: number, veiled: number, soft: number, closed: number] = [
  1, 5, 25, 0,
]
const MOST_SUM = 100

/** The 35 ways in which four quarters can fare, and which of them a sum of steps is. */
export const COMBOS: readonly Quarters[] = [0, 1, 2, 3, 4].flatMap((open) =>
  [0, 1, 2, 3, 4].flatMap((veiled) =>
    [0, 1, 2, 3, 4].flatMap((soft) => {
      const closed = 4 - open - veiled - soft
      return closed < 0 ? [] : [{ open, veiled, soft, closed }]
    }),
  ),
)

/** Number of the combination for each sum of STATE_STEPS, shifted to its place. */
export function comboOfSums(): Uint16Array {
  const combos = new Uint16Array(MOST_SUM + 1)
  for (const [at, { open, veiled, soft }] of COMBOS.entries()) {
    combos[open + 5 * veiled + 25 * soft] = at << COMBO_SHIFT
  }
  return combos
}

/** How much ink lies on each phase of the threads: one way, closer, and across. */
const THIN: readonly number[] = [1, 1, 0.7, 0.1, 0, 0.3, 1, 1, 0.7, 0.1, 0, 0.3]
const THICK: readonly number[] = [1, 1, 0.5, 0.5, 1, 1, 0.5, 0.5, 1, 1, 0.5, 0.5]
const ACROSS: readonly number[] = [1, 0.4, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0.1]
const BETWEEN_THREADS = 0.1

/** Colours of one scheme as they stand in image data, by all 16 bits. */
export function paintPalette(inks: PictureInks): Uint32Array {
  const palette = new Uint32Array(65536)
  for (let sign = 0; sign < 32; sign += 1) {
    for (const [combo, quarters] of COMBOS.entries()) {
      for (let cover = 0; cover < COVERS; cover += 1) {
        const at = (sign << SIGN_SHIFT) | (combo << COMBO_SHIFT) | cover
        palette[at] = pixelColour(inks, { sign, quarters, cover: cover / (COVERS - 1) })
      }
    }
  }
  return palette
}

/** Image data's 32 bits of one pixel; 0, transparent, outside the film. */
export function pixelColour(
  { sheet, ink, cut, soft }: PictureInks,
  { sign, quarters, cover }: Readonly<{ sign: number; quarters: Quarters; cover: number }>,
): number {
  if (cover === 0) {
    if (sign === OUTSIDE) return 0
    const loose = sign < PHASES && quarters.open + quarters.veiled >= 2
    return rgba(loose ? mix(sheet, soft, 0.75 * ACROSS[sign]) : sheet)
  }
  const phase = sign & 15
  const part = (count: number): number => (count === 0 ? 0 : Math.min(1, 0.15 + count / 4) * cover)
  let colour = mix(sheet, soft, sign >= EDGE ? 0.8 * part(quarters.closed) : 0)
  const threads = (pattern: readonly number[]): number =>
    BETWEEN_THREADS + (1 - BETWEEN_THREADS) * (pattern[phase] ?? 0)
  colour = mix(colour, cut, part(quarters.veiled) * threads(THIN))
  colour = mix(colour, cut, part(quarters.soft) * threads(THICK))
  colour = mix(colour, ink, part(quarters.open))
  return rgba(colour)
}

/** Colours of the film as it was drawn: cover in the high bits, density byte in the low eight. */
export function drawnPalette(inks: PictureInks, shadeOf: Float32Array): Uint32Array {
  const palette = new Uint32Array(COVERS * 256)
  for (let cover = 0; cover < COVERS; cover += 1) {
    for (let byte = 0; byte < 256; byte += 1) {
      const part = cover === 0 ? 1 : cover / (COVERS - 1)
      palette[(cover << 8) | byte] = rgba(mix(inks.sheet, inks.ink, part * shadeOf[byte]))
    }
  }
  return palette
}

function mix(from: Rgb, to: Rgb, part: number): Rgb {
  return [
    from[0] + (to[0] - from[0]) * part,
    from[1] + (to[1] - from[1]) * part,
    from[2] + (to[2] - from[2]) * part,
  ]
}

/** Red in the low byte, as image data lies in the memory of every little-endian machine. */
function rgba([red, green, blue]: Rgb): number {
  return ((255 << 24) | (Math.round(blue) << 16) | (Math.round(green) << 8) | Math.round(red)) >>> 0
}
