import fc from 'fast-check'
import { expect, test } from 'vitest'
import { near } from '../../units/near.testing.ts'
import { lu } from '../../units/quantity.ts'
import { chanceGood, chancesAt, worthOf } from './chances.ts'
import { randomFrom } from './draws.testing.ts'
import { factorOf } from './gaussian.ts'
import type { Outlook } from './question.ts'

const ONE: Outlook = {
  marks: 1,
  parts: [
    {
      share: 1,
      gaussian: {
        mean: Float64Array.of(1.02, 1.46, 1.71),
        cov: Float64Array.of(0.053, 0.05, 0.047, 0.05, 0.071, 0.045, 0.047, 0.045, 0.101),
      },
    },
  ],
}

// scipy 1.17.1: stats.norm, stats.multivariate_normal.cdf and integrate.quad, with the eye's
// variances 0.03² and 0.04² on the diagonal. Dose, hold, sound, open, open and hold, good, worth.
const ROWS = [
  [25, 0.9482273, 0.4084847, 0.8350304, 0.7833767, 0.2872192, 0.3619458],
  [40, 0.9939139, 0.7018727, 0.6319354, 0.6258715, 0.3768447, 0.4590872],
  [63, 0.9996058, 0.8971587, 0.3901543, 0.3897622, 0.3115625, 0.3763589],
  [110, 0.9999946, 0.9849294, 0.1504297, 0.1504243, 0.1409498, 0.1715248],
] as const

test.each(ROWS)(
  'oracle dose-rule: chances and worth of %d lu as a statistics library has them',
  (...row) => {
    const [dose, hold, sound, open, openAndHold, good, worth] = row
    const found = chancesAt(ONE, lu(dose))
    const close = { within: 1e-6, because: 'a table good to 5e-7 under an integral' }
    near(found.hold, hold, close)
    near(found.sound, sound, close)
    near(found.open, open, close)
    near(found.openAndHold, openAndHold, close)
    near(found.good, good, close)
    near(worthOf(ONE, Math.log10(dose)), worth, close)
  },
)

const MIXED_MEAN = [1.02, 1.46, 1.71, 1.9, 2.2]
const MIXED_COV = [
  [0.053, 0.05, 0.047, 0.045, 0.048],
  [0.05, 0.071, 0.045, 0.043, 0.046],
  [0.047, 0.045, 0.101, 0.055, 0.05],
  [0.045, 0.043, 0.055, 0.11, 0.052],
  [0.048, 0.046, 0.05, 0.052, 0.15],
]
const mixed = (marks: number): Outlook => {
  const size = 2 + marks
  const cov = MIXED_COV.slice(0, size).flatMap((row) => row.slice(0, size))
  const gaussian = {
    mean: Float64Array.from(MIXED_MEAN.slice(0, size)),
    cov: Float64Array.from(cov),
  }
  return { marks, parts: [{ share: 1, gaussian }] }
}

// scipy 1.17.1: stats.multivariate_normal.cdf in two to four dimensions.
const MIXED = [
  { marks: 2, dose: 30, open: 0.72265, good: 0.3056 },
  { marks: 2, dose: 52, open: 0.42162, good: 0.29252 },
  { marks: 2, dose: 80, open: 0.206, good: 0.17432 },
  { marks: 3, dose: 30, open: 0.71181, good: 0.2973 },
  { marks: 3, dose: 52, open: 0.40535, good: 0.2779 },
  { marks: 3, dose: 80, open: 0.19175, good: 0.16071 },
] as const

test.each(MIXED)('oracle genz-orthant: $marks kinds of marks open together at $dose lu', (row) => {
  const { open, good } = chancesAt(mixed(row.marks), lu(row.dose))
  const close = { within: 1e-3, because: 'a lattice of 1021 points, seen at most 4e-4 off' }
  near(open, row.open, close)
  near(good, row.good, close)
})

test('a plain simulation of two million screens comes to the same chances', () => {
  const { normal } = randomFrom(71)
  const [{ gaussian }] = ONE.parts
  const factor = factorOf(gaussian.cov, 3)
  const screens = 2_000_000
  const x = Math.log10(46)
  let [good, durable] = [0, 0]
  for (let at = 0; at < screens; at++) {
    const u = [normal(), normal(), normal()]
    const [hold, sound, fog] = [0, 1, 2].map(
      (i) =>
        gaussian.mean[i] +
        factor[3 * i] * u[0] +
        (i > 0 ? factor[3 * i + 1] * u[1] : 0) +
        (i > 1 ? factor[8] * u[2] : 0),
    )
    if (x > fog + 0.04 * normal()) continue
    if (x > sound + 0.03 * normal()) good++
    durable += Math.min(1, Math.max(0, (x - hold) / 0.95))
  }
  const noise = { within: 1.5e-3, because: 'four standard errors of two million draws' }
  near(chanceGood(ONE, x), good / screens, noise)
  near(worthOf(ONE, x), (good + 0.25 * durable) / screens, noise)
})

test('a possible jump is counted by its share', () => {
  const [{ gaussian }] = ONE.parts
  const moved = { ...gaussian, mean: gaussian.mean.map((value) => value + 0.31) }
  const parts = [
    { share: 0.8, gaussian },
    { share: 0.2, gaussian: moved },
  ]
  const dose = lu(44)
  const alone = (part: Outlook['parts'][number]): number =>
    chancesAt({ marks: 1, parts: [{ ...part, share: 1 }] }, dose).good
  near(chancesAt({ marks: 1, parts }, dose).good, 0.8 * alone(parts[0]) + 0.2 * alone(parts[1]), {
    within: 1e-12,
    because: 'a sum of two',
  })
})

test('invariant: more light holds more, opens less, and good is never likelier than its parts', () => {
  const dose = fc.double({ min: 1, max: 900, noNaN: true })
  const times = fc.double({ min: 1.01, max: 4, noNaN: true })
  fc.assert(
    fc.property(dose, times, fc.integer({ min: 1, max: 3 }), (less, ratio, marks) => {
      const [a, b] = [less, less * ratio].map((doseLu) => chancesAt(mixed(marks), lu(doseLu)))
      const slack = 1e-3
      expect(b.hold).toBeGreaterThanOrEqual(a.hold)
      expect(b.sound).toBeGreaterThanOrEqual(a.sound)
      expect(b.open).toBeLessThanOrEqual(a.open + slack)
      for (const { hold, sound, open, openAndHold, good } of [a, b]) {
        expect(good).toBeLessThanOrEqual(Math.min(sound, open) + slack)
        expect(openAndHold).toBeLessThanOrEqual(Math.min(hold, open) + slack)
        expect(good).toBeGreaterThanOrEqual(-1e-9)
        expect(open).toBeLessThanOrEqual(1 + 1e-9)
      }
    }),
    { seed: 66 },
  )
})
