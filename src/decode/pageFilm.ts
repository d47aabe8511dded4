import type { FilmPage } from '../formats/filmPage.ts'
import type { Film } from '../raster/film.ts'
import { pageRaster } from './pageRaster.ts'

/** Light through black and through clear film. */
const BLACK_AND_CLEAR = Float32Array.of(1, 1e-4)

/**
 * A page as a film in memory, one byte a pixel.
 *
 * @throws RangeError as `pageRaster`
 */
export async function pageFilm(
  page: FilmPage,
  { resolutionDpi }: Readonly<{ resolutionDpi: number }>,
): Promise<Film> {
  const { widthPx, heightPx, pixelUm, bands } = pageRaster(page, {
    resolutionDpi,
  })
  const rowBytes = Math.ceil(widthPx / 8)
  const samples = new Uint8Array(widthPx * heightPx)
  let row = 0
  for await (const { rows, bits } of bands) {
    for (let end = row + rows, from = 0; row < end; row += 1, from += rowBytes) {
      for (let x = 0; x < widthPx; x += 1) {
        samples[row * widthPx + x] = ((bits[from + (x >> 3)] ?? 0) >> (7 - (x & 7))) & 1
      }
    }
  }
  return {
    widthPx,
    heightPx,
    pixelUm,
    transmissionOf: BLACK_AND_CLEAR,
    bands: async function* () {
      yield { top: 0, rows: heightPx, samples }
    },
  }
}
