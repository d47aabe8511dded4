import type { Spread } from '../../src/core/forecast/spread.ts'
import { leakOfCode } from '../../src/raster/leakCode.ts'
import { leakMap } from '../../src/raster/leakMap.ts'
import { drawBar, filmOf } from '../../src/raster/testFilms.testing.ts'

/** Widths of the lines that artists draw, um. */
export const WIDTHS_UM = [100, 150, 200, 300, 500, 1000] as const
export type WidthUm = (typeof WIDTHS_UM)[number]

/** Share of its own dark that reaches the middle of a line under black; 1 where nothing leaks in. */
export type LineLeaks = Readonly<Record<WidthUm, number>>

const PIXEL_UM = 10
const LENGTH_PX = 160

/**
 * A small film with one black line of each width, folded with the spread: how dark each line is in
 * its middle. Folding is linear, so a line of any density leaks 1 − (1 − 10^−D) times that.
 */
export async function lineLeaks(spread: Spread): Promise<LineLeaks> {
  const found: [WidthUm, number][] = []
  for (const widthUm of WIDTHS_UM) {
    const lineWidth = widthUm / PIXEL_UM
    const widthPx = 240
    const densities = new Float32Array(widthPx * widthPx)
    const middle = widthPx / 2
    // An odd number of pixels lies about the middle of one, an even number between two.
    const y = middle + (lineWidth % 2) / 2
    const bar = { x: middle, y, turn: 0, length: LENGTH_PX, width: lineWidth, density: 6 }
    drawBar(densities, widthPx, bar)
    const film = filmOf(densities, { widthPx, pixelUm: PIXEL_UM })
    let darkest = 1
    for await (const { top, rows, codes } of leakMap(film, spread)) {
      for (let row = 0; row < rows; row++) {
        if (Math.abs(top + row - middle) > 1 + lineWidth / 2) continue
        const leak = leakOfCode(codes[row * widthPx + middle])
        darkest = Math.min(darkest, leak)
      }
    }
    found.push([widthUm, 1 - darkest])
  }
  return Object.fromEntries(found) as LineLeaks
}
