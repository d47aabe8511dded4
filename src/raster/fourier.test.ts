import FFT from 'fft.js'
import { describe, expect, test } from 'vitest'
import { forward, fourierSquare, throughFilter } from './fourier.ts'

/** Seeded noise, −1 … 1. */
function noise(seed: number): () => number {
  let state = seed
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0
    return state / 2 ** 31 - 1
  }
}

/** Circular convolution by the general-purpose library: rows, columns, product, and back. */
function byLibrary(side: number, values: Float64Array, kernel: Float64Array): Float64Array {
  const spectrum = transform(side, interleaved(values), 'transform')
  const response = transform(side, interleaved(kernel), 'transform')
  for (let at = 0; at < side * side; at += 1) {
    const [a, b, c, d] = [
      spectrum[2 * at],
      spectrum[2 * at + 1],
      response[2 * at],
      response[2 * at + 1],
    ]
    spectrum[2 * at] = a * c - b * d
    spectrum[2 * at + 1] = a * d + b * c
  }
  return transform(side, spectrum, 'inverseTransform').filter((_, at) => at % 2 === 0)
}

function transform(
  side: number,
  from: Float64Array,
  way: 'transform' | 'inverseTransform',
): Float64Array {
  const fft = new FFT(side)
  const grid = from.slice()
  const line = new Float64Array(2 * side)
  const result = new Float64Array(2 * side)
  for (const [outer, inner] of [
    [side, 1],
    [1, side],
  ] as const) {
    for (let row = 0; row < side; row += 1) {
      for (let at = 0; at < side; at += 1) {
        const place = 2 * (row * outer + at * inner)
        line[2 * at] = grid[place]
        line[2 * at + 1] = grid[place + 1]
      }
      fft[way](result, line)
      for (let at = 0; at < side; at += 1) {
        const place = 2 * (row * outer + at * inner)
        grid[place] = result[2 * at]
        grid[place + 1] = result[2 * at + 1]
      }
    }
  }
  return grid
}

function interleaved(values: Float64Array): Float64Array {
  const both = new Float64Array(2 * values.length)
  values.forEach((value, at) => {
    both[2 * at] = value
  })
  return both
}

describe.each([16, 32, 64, 128])('a square of %d', (side) => {
  test('oracle cooley-tukey: two real pictures through an even filter come out as by a general library', () => {
    const next = noise(side)
    const [one, two, kernel] = [0, 1, 2].map(() => Float64Array.from({ length: side * side }, next))
    // even about the origin, so that its spectrum is real
    for (let y = 0; y < side; y += 1) {
      for (let x = 0; x < side; x += 1) {
        kernel[y * side + x] = kernel[((side - y) % side) * side + ((side - x) % side)]
      }
    }
    const square = fourierSquare(side)
    const { stride, re, im } = square
    const put = (values: Float64Array, target: Float64Array, scale: number): void => {
      for (let y = 0; y < side; y += 1) {
        for (let x = 0; x < side; x += 1) target[y * stride + x] = values[y * side + x] * scale
      }
    }
    put(kernel, re, 1 / side ** 2)
    im.fill(0)
    forward(square)
    const filter = re.slice()
    expect(Math.max(...im.map(Math.abs))).toBeLessThan(1e-12)
    put(one, re, 1)
    put(two, im, 1)
    throughFilter(square, filter, { first: 0, count: side })
    const [first, second] = [byLibrary(side, one, kernel), byLibrary(side, two, kernel)]
    let worst = 0
    for (let y = 0; y < side; y += 1) {
      for (let x = 0; x < side; x += 1) {
        worst = Math.max(
          worst,
          Math.abs(re[y * stride + x] - first[y * side + x]),
          Math.abs(im[y * stride + x] - second[y * side + x]),
        )
      }
    }
    expect(worst).toBeLessThan(1e-10) // sums of up to 16,384 products of 64-bit numbers below 1
  })
})
