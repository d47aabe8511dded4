import fc from 'fast-check'
import { expect, test } from 'vitest'
import { blur, planeOf } from './plane.ts'

/** The blur as it is defined: every pixel by every weight, the edge's value going on outside. */
function direct(values: Float32Array, widthPx: number, sdPx: number): Float64Array {
  const heightPx = values.length / widthPx
  const reach = Math.ceil(2.6 * sdPx)
  const taps = Array.from({ length: 2 * reach + 1 }, (_, k) =>
    Math.exp(-((k - reach) ** 2) / (2 * sdPx ** 2)),
  )
  const sum = taps.reduce((whole, tap) => whole + tap, 0)
  const inside = (at: number, length: number): number => Math.min(length - 1, Math.max(0, at))
  return Float64Array.from(values, (_, at) => {
    const [x, y] = [at % widthPx, Math.floor(at / widthPx)]
    let total = 0
    for (const [j, down] of taps.entries()) {
      for (const [i, across] of taps.entries()) {
        const row = inside(y + j - reach, heightPx)
        total +=
          (down * across * (values[row * widthPx + inside(x + i - reach, widthPx)] ?? 0)) / sum ** 2
      }
    }
    return total
  })
}

test('invariant: a blur that passes over what is flat is the blur by its definition', () => {
  const sizes = fc.record({
    widthPx: fc.integer({ min: 1, max: 150 }),
    heightPx: fc.integer({ min: 1, max: 24 }),
    sdPx: fc.double({ min: 0.3, max: 2.5, noNaN: true }),
    specks: fc.array(fc.nat(), { maxLength: 5 }),
  })
  fc.assert(
    fc.property(sizes, ({ widthPx, heightPx, sdPx, specks }) => {
      const plane = planeOf(widthPx, heightPx)
      for (const speck of specks) plane.values[speck % plane.values.length] = 1
      const expected = direct(plane.values, widthPx, sdPx)
      blur(plane, sdPx)
      const off = plane.values.map((value, at) => Math.abs(value - (expected[at] ?? 0)))
      expect(Math.max(...off)).toBeLessThan(1e-6)
    }),
    { numRuns: 40 },
  )
})
