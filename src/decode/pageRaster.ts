import { type RenderedImage, renderAsync } from '@resvg/resvg-js'
import { expectIn, type Range } from '../core/units/range.ts'
import { type Bilevel, type BitBand, rowBytesOf } from '../formats/bilevel.ts'
import { expectPage, type FilmPage } from '../formats/filmPage.ts'
import { bandSvg, drawnItems, expectBlack } from './pageRasterSvg.ts'

export const PAGE_RESOLUTION: Range = { name: 'resolutionDpi', low: 50, high: 3000, unit: 'dpi' }

/** What the drawing library holds of a page at a time; it and its copy are 4 bytes a pixel. */
const BAND_PX = 2 ** 19

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
  { resolutionDpi }: Readonly<{ resolutionDpi: number }>,
): Bilevel {
  expectIn(resolutionDpi, PAGE_RESOLUTION)
  expectPage(page)
  expectBlack(page.items)
  const pxPerMm = resolutionDpi / 25.4
  const widthPx = Math.max(1, Math.round(page.widthMm * pxPerMm))
  const heightPx = Math.max(1, Math.round(page.heightMm * pxPerMm))
  expectIn(widthPx, { name: 'widthPx', low: 1, high: MOST_WIDE_PX, unit: 'px' })
  const bandRows = Math.max(1, Math.floor(BAND_PX / widthPx))
  const drawn = drawnItems(page, { pxPerMm })
  async function* bands(): AsyncGenerator<BitBand> {
    for (let topPx = 0; topPx < heightPx; topPx += bandRows) {
      const rows = Math.min(bandRows, heightPx - topPx)
      const svg = bandSvg(drawn, { widthPx, topPx, rows })
      yield { rows, bits: bitsOf(await renderAsync(svg, { font: { loadSystemFonts: false } })) }
    }
  }
  return { widthPx, heightPx, pixelUm: 25_400 / resolutionDpi, bands: bands() }
}

const WHITE = 0xffff_ffff

function bitsOf({ width, height, pixels }: RenderedImage): Uint8Array {
  const rowBytes = rowBytesOf({ widthPx: width })
  const bits = new Uint8Array(rowBytes * height)
  const whole = new Uint32Array(pixels.buffer, pixels.byteOffset, width * height)
  for (let row = 0; row < height; row++) {
    const end = (row + 1) * width
    let byteAt = row * rowBytes
    for (let from = row * width; from < end; from += 8, byteAt++) {
      let byte = 0
      const to = Math.min(from + 8, end)
      for (let at = from; at < to; at++) {
        byte = (byte << 1) | (whole[at] === WHITE ? 0 : 1)
      }
      bits[byteAt] = byte << (from + 8 - to)
    }
  }
  return bits
}
