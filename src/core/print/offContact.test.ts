import fc from 'fast-check'
import { expect, test } from 'vitest'
import { near } from '../units/near.testing.ts'
import { mm } from '../units/quantity.ts'
import { imageGrowthUm, snapOffNewtonPerCm, usualOffContactMm } from './offContact.ts'

/**
 * Of a string pressed down by h at x, without rubbing: the place that stood there at rest. Both
 * sides are stretched alike, so its share of the length at rest is the share of the bent length.
 */
function atRest(x: number, { span, h }: Readonly<{ span: number; h: number }>): number {
  const left = Math.hypot(x, h)
  return (span * left) / (left + Math.hypot(span - x, h))
}

/** The growth without any shortening of the sums: where the film's two ends print. */
function exactGrowthUm(h: number, { span, margin }: Readonly<{ span: number; margin: number }>) {
  let [low, high] = [margin / 2, margin]
  for (let halving = 0; halving < 80; halving++) {
    const middle = (low + high) / 2
    if (atRest(middle, { span, h }) < margin) low = middle
    else high = middle
  }
  return 1000 * 2 * (margin - low)
}

test('oracle off-contact-string: 500 mm clear, 3 mm off: 67 um at a margin of 100, 129 at 60', () => {
  const growth = (margin: number): number =>
    imageGrowthUm(mm(3), { clearSpanMm: mm(500), marginMm: mm(margin) })
  const whole = { within: 0.6, because: 'given in whole um, cut or rounded' }
  near(growth(100), 67.5, whole)
  near(growth(60), 129.5, whole)
  near(growth(100), exactGrowthUm(3, { span: 500, margin: 100 }), {
    within: 0.1,
    because: 'the next member of the series is (h/a)² of it',
  })
})

test('oracle off-contact-string: the growth is that of an exact bent string', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 200, max: 2000, noNaN: true }),
      fc.double({ min: 0.1, max: 0.45, noNaN: true }),
      fc.double({ min: 0.5, max: 8, noNaN: true }),
      (span, part, h) => {
        const margin = part * span
        const growth = imageGrowthUm(mm(h), { clearSpanMm: mm(span), marginMm: mm(margin) })
        near(growth, exactGrowthUm(h, { span, margin }), {
          within: 2 * (h / margin) ** 2 * growth + 1e-6,
          because: 'members of the fourth order in h/a are left out',
        })
      },
    ),
    { seed: 7 },
  )
})

test('oracle off-contact-string: the lift is what both bent sides pull upwards', () => {
  const [h, span, x, tension] = [4, 620, 170, 18]
  const force = snapOffNewtonPerCm(mm(h), {
    clearSpanMm: mm(span),
    fromEdgeMm: mm(x),
    tensionNewtonPerCm: tension,
  })
  const upwards = tension * (Math.sin(Math.atan(h / x)) + Math.sin(Math.atan(h / (span - x))))
  near(force, upwards, { within: 5e-4 * force, because: 'sines for tangents of small angles' })
})

test('oracle off-contact-practice: the published frame comes out, less tension needs more', () => {
  const usual = (span: number, tension: number): number =>
    usualOffContactMm({ clearSpanMm: mm(span), tensionNewtonPerCm: tension })
  near(usual(584.2, 27), 4.8, { within: 0.25, because: 'to the half millimetre' })
  expect(usual(584.2, 18)).toBeGreaterThan(usual(584.2, 27))
  expect(usual(300, 27)).toBeLessThan(usual(584.2, 27))
  expect(usual(2000, 8)).toBe(10)
})

test('what cannot be is refused by name', () => {
  const standing = { clearSpanMm: mm(500), marginMm: mm(260) }
  expect(() => imageGrowthUm(mm(3), standing)).toThrow('marginMm: expected 1 to 250 mm, got 260')
  expect(() => imageGrowthUm(mm(-1), { ...standing, marginMm: mm(90) })).toThrow('offContactMm')
})
