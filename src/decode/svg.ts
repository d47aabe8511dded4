import { renderAsync } from '@resvg/resvg-js'
import { expectIn } from '../core/units/range.ts'
import { FONTS, type FontName, fontFiles } from './fonts.ts'

/** Rows of red, green, blue and alpha, colour not multiplied by alpha. */
export type Drawing = Readonly<{ data: Uint8Array; width: number; height: number }>

/**
 * Draws an SVG of our own with the product's letters and no others.
 *
 * @param svg refers to nothing outside itself but data: addresses; the text font has no micro sign,
 *   and a line with one is drawn in another font
 * @param fonts those it uses; all unless given
 * @throws RangeError where the SVG refers outside itself or `widthPx` is out of range
 */
export async function drawSvg(
  svg: string,
  {
    widthPx,
    fonts = ['text', 'bold text', 'signs'],
  }: Readonly<{
    widthPx: number
    fonts?: readonly FontName[]
  }>,
): Promise<Drawing> {
  expectIn(widthPx, { name: 'widthPx', low: 1, high: 20_000, unit: 'px', whole: true })
  if (/\bhref\s*=\s*(?!["'](?:#|data:))/i.test(svg)) {
    throw new RangeError('svg: expected no references but to itself and data:')
  }
  const image = await renderAsync(svg, {
    fitTo: { mode: 'width', value: widthPx },
    font: {
      loadSystemFonts: false,
      fontFiles: [...(await fontFiles(fonts))],
      defaultFontFamily: FONTS.text.family,
    },
  })
  return { data: straight(image.pixels), width: image.width, height: image.height }
}

/** The drawing library multiplies colour by alpha, the one that lays pictures together does not. */
function straight(pixels: Uint8Array): Uint8Array {
  const out = Uint8Array.from(pixels)
  for (let at = 0; at < out.length; at += 4) {
    const alpha = out[at + 3] ?? 0
    if (alpha === 0 || alpha === 255) continue
    for (let channel = at; channel < at + 3; channel++) {
      out[channel] = Math.min(255, Math.round(((out[channel] ?? 0) * 255) / alpha))
    }
  }
  return out
}
