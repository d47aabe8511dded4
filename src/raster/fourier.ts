import {
  filterColumns,
  halveColumns,
  joinColumnPairs,
  joinColumns,
  quarterColumns,
} from './fourierColumns.ts'
import { backwardRow, forwardRow } from './fourierRows.ts'

/**
 * Square complex Fourier transforms in place, the spectrum left in scrambled order: forward by
 * decimation in frequency, back by decimation in time, so that nothing is ever reordered between
 * a forward and a backward transform. Radix 4, with one radix-2 pass where the side is no power of 4.
 *
 * @source cooley-tukey
 */
export type FourierSquare = Readonly<{
  side: number
  /** Distance from row to row in the arrays: a little over `side`, against cache conflicts. */
  stride: number
  re: Float64Array
  im: Float64Array
  /** cos and −sin of 2π k / side, k = 0 … side − 1. */
  cos: Float64Array
  sin: Float64Array
}>

export function fourierSquare(side: number): FourierSquare {
  const stride = side + 8
  const cos = new Float64Array(side)
  const sin = new Float64Array(side)
  for (let k = 0; k < side; k += 1) {
    cos[k] = Math.cos((2 * Math.PI * k) / side)
    sin[k] = -Math.sin((2 * Math.PI * k) / side)
  }
  return {
    side,
    stride,
    re: new Float64Array(side * stride),
    im: new Float64Array(side * stride),
    cos,
    sin,
  }
}

/** Spectrum of what stands in re, im; scrambled in both directions. */
export function forward(square: FourierSquare): void {
  for (let row = 0; row < square.side; row += 1) forwardRow(square, row)
  for (const span of spansOf(square.side)) {
    if (span === 8) halveColumns(square)
    else quarterColumns(square, span)
  }
}

/**
 * Spectrum times a real table in the same scrambled order, and back; only rows first … first +
 * count − 1 are made whole. The last forward pass, the product and the first backward pass run
 * over the same four rows and are done in one.
 */
export function throughFilter(
  square: FourierSquare,
  filter: Float64Array,
  rows: Readonly<{ first: number; count: number }>,
): void {
  const { side } = square
  for (let row = 0; row < side; row += 1) forwardRow(square, row)
  const spans = spansOf(side).filter((span) => span > 4)
  for (const span of spans) {
    if (span === 8) halveColumns(square)
    else quarterColumns(square, span)
  }
  filterColumns(square, filter)
  for (const span of spans.reverse()) {
    if (span === 8) joinColumnPairs(square)
    else joinColumns(square, span)
  }
  for (let row = rows.first; row < rows.first + rows.count; row += 1) backwardRow(square, row)
}

/** Lengths of the passes from whole to 4: quarters, with one halving from 8 where it does not go even. */
function spansOf(side: number): number[] {
  const spans: number[] = []
  for (let span = side; span > 1; span = span === 8 ? 4 : span / 4) spans.push(span)
  return spans
}
