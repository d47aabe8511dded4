import type { Spread } from '../core/forecast/spread.ts'
import type { Film } from './film.ts'
import { type FourierSquare, forward, fourierSquare, throughFilter } from './fourier.ts'
import { codeOfLeak, codeRow } from './leakCode.ts'
import { type SpreadKernel, spreadKernel } from './spreadKernel.ts'
import { type FilmWindow, filmWindows } from './window.ts'

/** Rows of the leak map with the film's own rows beside them; valid until the next is asked for. */
export type LeakBand = Readonly<{
  top: number
  rows: number
  widthPx: number
  /** rows × widthPx codes of leakCode.ts. */
  codes: Uint16Array
  /** The film's own transmission at the same places: values[start + row * stride + x]. */
  film: Readonly<{ values: Float32Array; start: number; stride: number }>
}>

/**
 * Film transmission folded with the spread, dose-free: at each pixel's middle the share of the
 * clear-film dose that arrives there. Outside the film lies clear film.
 *
 * Overlap-save tiles, two at a time as real and imaginary part of one Fourier transform (the
 * kernel is even, so its spectrum is real). A tile whose window is all of one value is that value.
 * Memory: one strip of the film's width, whatever its height.
 *
 * @returns bands from top to bottom; agrees with a direct sum to the rounding of leakCode.ts
 * @source overlap-save, spread-contract
 */
export async function* leakMap(film: Film, spread: Spread): AsyncGenerator<LeakBand> {
  const kernel = spreadKernel(spread, film)
  const engine = tileEngine(kernel)
  const { widthPx } = film
  const codes = new Uint16Array(engine.inner * widthPx)
  for await (const window of filmWindows(film, { inner: engine.inner, margin: kernel.reachPx })) {
    strip(engine, window, codes)
    yield {
      top: window.top,
      rows: window.rows,
      widthPx,
      codes: codes.subarray(0, window.rows * widthPx),
      film: {
        values: window.values,
        start: kernel.reachPx * (window.stride + 1),
        stride: window.stride,
      },
    }
  }
}

type Engine = Readonly<{
  square: FourierSquare
  /** Spectrum of the kernel over side², in the square's own scrambled order. */
  filter: Float64Array
  margin: number
  /** Side of what a tile yields: side − 2 margin. */
  inner: number
  line: Float32Array
  bits: Uint32Array
}>

function tileEngine({ reachPx, weights }: SpreadKernel): Engine {
  let side = 128
  while (reachPx > 0.15 * side) side *= 2
  const square = fourierSquare(side)
  const across = 2 * reachPx + 1
  for (let y = -reachPx; y <= reachPx; y += 1) {
    for (let x = -reachPx; x <= reachPx; x += 1) {
      const at = ((y + side) % side) * square.stride + ((x + side) % side)
      square.re[at] = weights[(y + reachPx) * across + x + reachPx] / (side * side)
    }
  }
  forward(square)
  const line = new Float32Array(side)
  return {
    square,
    filter: square.re.slice(),
    margin: reachPx,
    inner: side - 2 * reachPx,
    line,
    bits: new Uint32Array(line.buffer),
  }
}

function strip(engine: Engine, window: FilmWindow, codes: Uint16Array): void {
  const { inner, margin } = engine
  let waiting = -1
  for (let left = 0; left < window.widthPx; left += inner) {
    const flat = flatValue(window, left, inner + 2 * margin)
    if (flat !== null) {
      const code = codeOfLeak(flat)
      const count = Math.min(inner, window.widthPx - left)
      for (let row = 0; row < window.rows; row += 1) {
        const at = row * window.widthPx + left
        codes.fill(code, at, at + count)
      }
    } else if (waiting < 0) {
      waiting = left
    } else {
      tiles(engine, window, codes, [waiting, left])
      waiting = -1
    }
  }
  if (waiting >= 0) tiles(engine, window, codes, [waiting, waiting])
}

/** The one value of a tile's window, or null. */
function flatValue(
  { values, stride, height }: FilmWindow,
  left: number,
  side: number,
): number | null {
  const first = values[left]
  for (let row = 0; row < height; row += 1) {
    const start = row * stride + left
    for (let at = start; at < start + side; at += 1) {
      if (values[at] !== first) return null
    }
  }
  return first
}

function tiles(
  { square, filter, margin, inner, line, bits }: Engine,
  window: FilmWindow,
  codes: Uint16Array,
  [left, right]: readonly [number, number],
): void {
  const { side, stride, re, im } = square
  for (let row = 0; row < side; row += 1) {
    const from = row * window.stride
    const to = row * stride
    for (let x = 0; x < side; x += 1) {
      re[to + x] = window.values[from + left + x]
      im[to + x] = window.values[from + right + x]
    }
  }
  throughFilter(square, filter, { first: margin, count: window.rows })
  for (const [part, at] of [
    [re, left],
    [im, right],
  ] as const) {
    const count = Math.min(inner, window.widthPx - at)
    for (let row = 0; row < window.rows; row += 1) {
      const from = (row + margin) * stride + margin
      for (let x = 0; x < count; x += 1) {
        const value = part[from + x]
        line[x] = value > 0 ? value : 0
      }
      codeRow(bits, codes, { at: row * window.widthPx + at, count })
    }
    if (left === right) break
  }
}
