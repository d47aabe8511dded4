import FFT from 'fft.js'
import { describe, expect, test } from 'vitest'
import { evenSpectrum, fourierTile, throughFilter } from './fourier.ts'

/** Seeded noise, −1 … 1. */
function noise(seed: number): () => number {
  let state = seed
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0
    return state / 2 ** 31 - 1
  }
}

/** Circular convolution by the general-purpose library: rows, columns, product, and back. */
function byLibrary(size: Size, values: Float64Array, kernel: Float64Array): Float64Array {
  const spectrum = transform(size, interleaved(values), 'transform')
  const response = transform(size, interleaved(kernel), 'transform')
  for (let at = 0; at < values.length; at += 1) {
    const [a, b, c, d] = [
      spectrum[2 * at],
      spectrum[2 * at + 1],
      response[2 * at],
      response[2 * at + 1],
    ]
    spectrum[2 * at] = a * c - b * d
    spectrum[2 * at + 1] = a * d + b * c
  }
  return transform(size, spectrum, 'inverseTransform').filter((_, at) => at % 2 === 0)
}

type Size = Readonly<{ high: number; wide: number }>

function transform(
  { high, wide }: Size,
  from: Float64Array,
  way: 'transform' | 'inverseTransform',
): Float64Array {
  const grid = from.slice()
  for (const { lines, length, outer, inner } of [
    { lines: high, length: wide, outer: wide, inner: 1 },
    { lines: wide, length: high, outer: 1, inner: wide },
  ]) {
    const fft = new FFT(length)
    const line = new Float64Array(2 * length)
    const result = new Float64Array(2 * length)
    for (let row = 0; row < lines; row += 1) {
      for (let at = 0; at < length; at += 1) {
        const place = 2 * (row * outer + at * inner)
        line[2 * at] = grid[place]
        line[2 * at + 1] = grid[place + 1]
      }
      fft[way](result, line)
      for (let at = 0; at < length; at += 1) {
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

/** Random weights, alike about both axes, and the same about the origin of a circular picture. */
function evenKernel(next: () => number, { high, wide }: Size, reachPx: number) {
  const across = 2 * reachPx + 1
  const quarter = Float64Array.from({ length: (reachPx + 1) ** 2 }, next)
  const weights = new Float64Array(across ** 2)
  const circular = new Float64Array(high * wide)
  for (let y = -reachPx; y <= reachPx; y += 1) {
    for (let x = -reachPx; x <= reachPx; x += 1) {
      const weight = quarter[Math.abs(y) * (reachPx + 1) + Math.abs(x)]
      weights[(y + reachPx) * across + x + reachPx] = weight
      circular[((y + high) % high) * wide + ((x + wide) % wide)] = weight
    }
  }
  return { weights, circular }
}

describe.each([
  { high: 16, wide: 16 },
  { high: 32, wide: 64 },
  { high: 64, wide: 32 },
  { high: 128, wide: 256 },
])('$high rows of $wide', (size) => {
  const { high, wide } = size
  const reachPx = Math.min(high, wide) / 4

  test('oracle cooley-tukey: the spectrum of an even kernel is what a general library says', () => {
    const { weights, circular } = evenKernel(noise(7), size, reachPx)
    const expected = transform(size, interleaved(circular), 'transform')
    const worst = evenSpectrum({ reachPx, weights }, size).reduce(
      (most, value, at) =>
        Math.max(most, Math.abs(value - expected[2 * at]), Math.abs(expected[2 * at + 1])),
      0,
    )
    expect(worst).toBeLessThan(1e-9)
  })

  test('oracle cooley-tukey: two real pictures through an even filter come out as by a general library', () => {
    const next = noise(high)
    const { weights, circular } = evenKernel(next, size, reachPx)
    const [one, two] = [0, 1].map(() => Float64Array.from({ length: high * wide }, next))
    const tile = fourierTile(size)
    tile.re.set(one)
    tile.im.set(two)
    const filter = evenSpectrum({ reachPx, weights }, size).map((value) => value / (high * wide))
    throughFilter(tile, Float32Array.from(filter))
    for (const [part, picture] of [
      [tile.re, one],
      [tile.im, two],
    ] as const) {
      const expected = byLibrary(size, picture, circular)
      const strength = Math.sqrt(
        expected.reduce((sum, value) => sum + value ** 2, 0) / (high * wide),
      )
      const worst = part.reduce(
        (most, value, at) => Math.max(most, Math.abs(value - expected[at])),
        0,
      )
      expect(worst / strength).toBeLessThan(4e-6) // 32-bit floats: 6e-8 a step, some 60 steps
    }
  })
})
