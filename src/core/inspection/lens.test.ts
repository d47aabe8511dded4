import fc from 'fast-check'
import { expect, test } from 'vitest'
import { near } from '../units/near.testing.ts'
import { mapped } from './homography.ts'
import { bent, fittedView, seenAt, straightened } from './lens.ts'

const size = { widthPx: 4000, heightPx: 3000 }
const lens = (bend: number) => ({ middle: { x: 2000, y: 1500 }, reachPx: 2500, bend })

test('oracle brown-conrady: a corner at r = 1 of a barrel of 0.1 belongs a tenth farther out', () => {
  const corner = straightened(lens(0.1), { x: 4000, y: 3000 })
  near(corner.x, 2000 + 2000 * 1.1, { within: 1e-9, because: 'rounding' })
  near(corner.y, 1500 + 1500 * 1.1, { within: 1e-9, because: 'rounding' })
})

test('invariant: bending undoes straightening', () => {
  const x = fc.double({ min: 0, max: 4000, noNaN: true })
  const y = fc.double({ min: 0, max: 3000, noNaN: true })
  const bend = fc.double({ min: -0.2, max: 0.2, noNaN: true })
  fc.assert(
    fc.property(x, y, bend, (px, py, k) => {
      const back = bent(lens(k), straightened(lens(k), { x: px, y: py }))
      expect(Math.hypot(back.x - px, back.y - py)).toBeLessThan(1e-6)
    }),
    { numRuns: 60 },
  )
})

const homography = [9, 0.4, 700, -0.3, 9.2, 250, 2e-4, -1e-4, 1]

test.each([-0.08, 0, 0.03, 0.12])('a lens of %f is told from 44 corners, noise and all', (bend) => {
  const pairs = Array.from({ length: 44 }, (_, at) => {
    const from = { x: (at % 11) * 27, y: Math.floor(at / 11) * 60 }
    const { x, y } = bent(lens(bend), mapped(homography, from))
    // a tenth of a pixel of noise, the same every time
    return { from, to: { x: x + 0.1 * Math.sin(12.9 * at), y: y + 0.1 * Math.cos(7.3 * at) } }
  })
  const view = fittedView(pairs, size)
  if (view === null) throw new Error('no view')
  near(view.lens.bend, bend, { within: 0.002, because: 'a tenth of a pixel over 1500' })
  expect(view.errorPx).toBeLessThan(0.15)
  const place = seenAt(view, { x: 100, y: 100 })
  const truth = bent(lens(bend), mapped(homography, { x: 100, y: 100 }))
  expect(Math.hypot(place.x - truth.x, place.y - truth.y)).toBeLessThan(0.2)
})
