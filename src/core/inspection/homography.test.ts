import fc from 'fast-check'
import { expect, test } from 'vitest'
import { near } from '../units/near.testing.ts'
import { homographyThrough, inverseOf, mapped, product } from './homography.ts'

const square = [
  { x: 0, y: 0 },
  { x: 1, y: 0 },
  { x: 1, y: 1 },
  { x: 0, y: 1 },
]

test('oracle hartley-zisserman: the unit square seen as (0,0) (2,0) (3,3) (0,2)', () => {
  const seen = [
    { x: 0, y: 0 },
    { x: 2, y: 0 },
    { x: 3, y: 3 },
    { x: 0, y: 2 },
  ]
  const h = homographyThrough(square.map((from, at) => ({ from, to: seen[at] ?? from })))
  const exact = [3 / 2, 0, 0, 0, 3 / 2, 0, -1 / 4, -1 / 4, 1]
  if (h === null) throw new Error('no homography')
  for (const [at, entry] of h.entries()) {
    near(entry, exact[at] ?? Number.NaN, {
      within: 1e-12,
      because: 'rounding',
    })
  }
  expect(mapped(h, { x: 0.5, y: 0.5 }).x).toBeCloseTo(1, 12)
})

test('points on a line, too few points and one point four times have no homography', () => {
  const line = [0, 1, 2, 3].map((x) => ({ x, y: 2 * x }))
  expect(homographyThrough(line.map((from, at) => ({ from, to: square[at] ?? from })))).toBeNull()
  expect(homographyThrough(square.map((from, at) => ({ from, to: line[at] ?? from })))).toBeNull()
  const three = [square[0], { x: 0.5, y: 0 }, square[1], square[2]]
  const pairs = square.map((to, at) => ({ from: three[at] ?? to, to }))
  expect(homographyThrough(pairs)).toBeNull()
  expect(homographyThrough(pairs.slice(0, 3))).toBeNull()
  expect(homographyThrough(square.map((from) => ({ from, to: { x: 4, y: 4 } })))).toBeNull()
})

const tilt = fc.double({ min: -0.3, max: 0.3, noNaN: true })
const shift = fc.double({ min: -2000, max: 2000, noNaN: true })

test('invariant: many points of one homography give it back, and its inverse undoes it', () => {
  fc.assert(
    fc.property(tilt, tilt, tilt, shift, shift, (g, i, b, c, f) => {
      const truth = [900, 400 * b, c, -300 * b, 1100, f, g, i, 1]
      const pairs = Array.from({ length: 12 }, (_, at) => {
        const from = { x: (at % 4) / 3, y: Math.floor(at / 4) / 2 }
        return { from, to: mapped(truth, from) }
      })
      const h = homographyThrough(pairs)
      const back = h === null ? null : inverseOf(h)
      if (h === null || back === null) throw new Error('no homography')
      for (const { from, to } of pairs) {
        expect(Math.hypot(mapped(h, from).x - to.x, mapped(h, from).y - to.y)).toBeLessThan(1e-7)
        const home = mapped(back, to)
        expect(Math.hypot(home.x - from.x, home.y - from.y)).toBeLessThan(1e-9)
      }
      const same = mapped(product(back, h), { x: 0.3, y: 0.8 })
      expect(Math.hypot(same.x - 0.3, same.y - 0.8)).toBeLessThan(1e-9)
    }),
    { numRuns: 30 },
  )
})
