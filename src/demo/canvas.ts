import type { Film, FilmBand } from '../raster/film.ts'

/** Samples per unit of density: a step is 0.001 D. */
export const STEPS_PER_DENSITY = 1000
const DENSEST_STEP = 4095

/** A sheet of clear film to draw on: density above base in steps of 0.001, row by row. */
export type Canvas = Readonly<{
  widthPx: number
  heightPx: number
  pixelMm: number
  steps: Uint16Array
}>

export type Sheet = Readonly<{ widthMm: number; heightMm: number }>

/** Whole pixels, and as many as come nearest to the true size. */
export function pixelsOf(
  sheet: Sheet,
  resolutionDpi: number,
): Readonly<{ widthPx: number; heightPx: number; pixelMm: number }> {
  const pixelMm = 25.4 / resolutionDpi
  return {
    widthPx: Math.round(sheet.widthMm / pixelMm),
    heightPx: Math.round(sheet.heightMm / pixelMm),
    pixelMm,
  }
}

export function clearCanvas(sheet: Sheet, resolutionDpi: number): Canvas {
  const size = pixelsOf(sheet, resolutionDpi)
  return { ...size, steps: new Uint16Array(size.widthPx * size.heightPx) }
}

/**
 * Density of a pixel that a mark covers in part: light adds up, densities do not,
 * D = −log10(1 − c (1 − 10^−D)).
 */
export function densityWhere(density: number, coverage: number): number {
  if (coverage >= 1) return density
  if (coverage <= 0) return 0
  return -Math.log10(1 - coverage * (1 - 10 ** -density))
}

/** Ink over ink: the denser one shows. */
export function lay(canvas: Canvas, index: number, density: number): void {
  const step = Math.round(density * STEPS_PER_DENSITY)
  if (step > (canvas.steps[index] ?? 0)) canvas.steps[index] = step
}

/** Wash over wash: densities add, up to what such a wash can come to. */
export function soak(
  canvas: Canvas,
  index: number,
  { density, most }: Readonly<{ density: number; most: number }>,
): void {
  const there = (canvas.steps[index] ?? 0) / STEPS_PER_DENSITY
  if (there >= most) return
  const sum = there + density
  // Within 0.3 of the limit the sum bends over towards it.
  const knee = most - 0.3
  const bent = sum <= knee ? sum : most - 0.3 * Math.exp((knee - sum) / 0.3)
  canvas.steps[index] = Math.round(Math.max(there, bent) * STEPS_PER_DENSITY)
}

/** Transmission of each step, the table of every drawn film. */
export function transmissionTable(): Float32Array {
  return Float32Array.from(
    { length: DENSEST_STEP + 1 },
    (_, step) => 10 ** (-step / STEPS_PER_DENSITY),
  )
}

const BAND_ROWS = 256

/** The finished drawing as a film; its bands are views, nothing is copied. */
export function filmOf({ widthPx, heightPx, pixelMm, steps }: Canvas): Film {
  return {
    widthPx,
    heightPx,
    pixelUm: pixelMm * 1000,
    transmissionOf: transmissionTable(),
    bands: async function* (): AsyncGenerator<FilmBand> {
      for (let top = 0; top < heightPx; top += BAND_ROWS) {
        const rows = Math.min(BAND_ROWS, heightPx - top)
        yield { top, rows, samples: steps.subarray(top * widthPx, (top + rows) * widthPx) }
      }
    },
  }
}
