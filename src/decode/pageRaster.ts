import { type RenderedImage, renderAsync } from '@resvg/resvg-js'
import { expectIn, type Range } from '../core/units/range.ts'
import { type Bilevel, type BitBand, rowBytesOf } from '../formats/bilevel.ts'
import { expectPage, type FilmPage } from '../formats/filmPage.ts'
import { expectBlack, pageSvg } from './pageRasterSvg.ts'

export const PAGE_RESOLUTION: Range = { name: 'resolutionDpi', low: 50, high: 3000, unit: 'dpi' }

/** What the drawing library holds of a page at a time; it and its copy are 4 bytes a pixel. */
const BAND_PX = 2 ** 22

/** The library reckons edges in 16 bits of whole pixels, half of which lie on the other side of 0. */
const MOST_WIDE_PX = 30_000

/**
 * A page of black drawings as bits: a pixel is black where its middle is covered, so that a straight
 * edge blackens the pixels of which it covers half. A stroke thinner than a pixel is one pixel wide.
 *
 * Drawn band by band, so that a large page needs no more memory than a small one. The page's sides
 * are rounded to whole pixels.
 *
 * @param page fills and strokes in full black, or in none, which clears; no bitmaps
 * @throws RangeError where the page holds anything else, cannot be, or is too wide for the resolution
 */
export function pageRaster(
  page: FilmPage,
  { resolutionDpi, bandPx = BAND_PX }: Readonly<{ resolutionDpi: number; bandPx?: number }>,
): Bilevel {
  expectIn(resolutionDpi, PAGE_RESOLUTION)
  expectPage(page)
  expectBlack(page.items)
  const pxPerMm = resolutionDpi / 25.4
  const widthPx = Math.max(1, Math.round(page.widthMm * pxPerMm))
  const heightPx = Math.max(1, Math.round(page.heightMm * pxPerMm))
  expectIn(widthPx, { name: 'widthPx', low: 1, high: MOST_WIDE_PX, unit: 'px' })
  const bandRows = Math.max(1, Math.floor(bandPx / widthPx))
  async function* bands(): AsyncGenerator<BitBand> {
    for (let topPx = 0; topPx < heightPx; topPx += bandRows) {
      const rows = Math.min(bandRows, heightPx - topPx)
      const svg = pageSvg(page, { pxPerMm, widthPx, topPx, rows })
      yield { rows, bits: bitsOf(await renderAsync(svg, { font: { loadSystemFonts: false } })) }
    }
  }
  return { widthPx, heightPx, pixelUm: 25_400 / resolutionDpi, bands: bands() }
}

function bitsOf(drawn: RenderedImage): Uint8Array {
  const { width, height, pixels } = drawn
  const rowBytes = rowBytesOf({ widthPx: width })
  const bits = new Uint8Array(rowBytes * height)
  for (let row = 0; row < height; row++) {
    let from = 4 * row * width
    const rowAt = row * rowBytes
    for (let x = 0; x < width; x++, from += 4) {
      if (pixels[from] === 0)
        bits[rowAt + (x >> 3)] = (bits[rowAt + (x >> 3)] ?? 0) | (128 >> (x & 7))
    }
  }
  return bits
}
