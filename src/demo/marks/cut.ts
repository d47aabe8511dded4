import type { Film, FilmBand } from '../../raster/film.ts'
import { pixelsOf, type Sheet, STEPS_PER_DENSITY, transmissionTable } from '../canvas.ts'
import { type Piece, shareInside } from '../polygons.ts'

/** Of masking film: the same everywhere, it is made by machine. */
export const MASK_DENSITY = 3.7

/** One thing done to the film: left lying or peeled off; a scratch takes a share of the layer. */
export type Cut = Readonly<{ piece: Piece; peeledShare: number }>

/** A piece of the layer that stays. */
export function stays(piece: Piece): Cut {
  return { piece, peeledShare: 0 }
}

/** A piece that is peeled off, or scraped so that this share of full light comes through. */
export function peeled(piece: Piece, peeledShare = 1): Cut {
  return { piece, peeledShare }
}

const BAND_ROWS = 256

/** The cut film, made band by band when asked for: a sheet of any size in little memory. */
export function cutFilm(
  sheet: Sheet,
  { cuts, resolutionDpi }: Readonly<{ cuts: readonly Cut[]; resolutionDpi: number }>,
): Film {
  const { widthPx, heightPx, pixelMm } = pixelsOf(sheet, resolutionDpi)
  const reaches = cuts.map(({ piece }) => {
    const ys = piece.flat().map((point) => point.yMm / pixelMm)
    return { top: Math.min(...ys) - 1, bottom: Math.max(...ys) + 1 }
  })
  return {
    widthPx,
    heightPx,
    pixelUm: pixelMm * 1000,
    transmissionOf: transmissionTable(),
    bands: async function* (): AsyncGenerator<FilmBand> {
      const cover = new Float32Array(widthPx * BAND_ROWS)
      const samples = new Uint16Array(widthPx * BAND_ROWS)
      for (let top = 0; top < heightPx; top += BAND_ROWS) {
        const rows = Math.min(BAND_ROWS, heightPx - top)
        cover.fill(0)
        cuts.forEach((cut, at) => {
          if (reaches[at].bottom < top || reaches[at].top > top + rows) return
          apply(cut, { widthPx, top, rows, pixelMm, cover })
        })
        for (let at = 0; at < rows * widthPx; at += 1) samples[at] = stepOf(cover[at])
        yield { top, rows, samples: samples.subarray(0, rows * widthPx) }
      }
    },
  }
}

type CoverBand = Readonly<{
  widthPx: number
  top: number
  rows: number
  pixelMm: number
  cover: Float32Array
}>

function apply({ piece, peeledShare }: Cut, band: CoverBand): void {
  const inside = shareInside(piece, band)
  if (inside === null) return
  const { cover, widthPx, top } = band
  for (let row = 0; row < inside.rows; row += 1) {
    const base = (inside.startRow - top + row) * widthPx + inside.startColumn
    const from = row * inside.stride
    for (let column = 0; column < inside.columns; column += 1) {
      const share = inside.sums[from + column]
      if (share === 0) continue
      const there = cover[base + column]
      cover[base + column] =
        peeledShare === 0 ? there + share * (1 - there) : there * (1 - share * peeledShare)
    }
  }
}

const CLEAREST = 10 ** -MASK_DENSITY
const FULL_STEP = MASK_DENSITY * STEPS_PER_DENSITY

/** Light adds up over the pixel: transmission 1 − c (1 − 10^−D). */
function stepOf(cover: number): number {
  if (cover <= 0) return 0
  if (cover >= 0.99999) return FULL_STEP
  return Math.round(-Math.log10(1 - cover * (1 - CLEAREST)) * STEPS_PER_DENSITY)
}
