import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { MEDIA, mediumNamed } from '../film/media.ts'
import { near } from '../units/near.testing.ts'
import { density, lu } from '../units/quantity.ts'
import type { DosePlan } from './dosePlan.ts'
import { type SurfaceDoses, surfaceDoses } from './doses.ts'
import { DEFAULT_BLEACHING_EMULSION, DEFAULT_EMULSION } from './emulsion.ts'
import { fogLimitLu } from './fogLimit.ts'
import { planDose } from './latitude.ts'

const doses = (gel: number, hold: number, through: number): SurfaceDoses => ({
  gelDoseLu: lu(gel),
  holdDoseLu: lu(hold),
  throughDoseLu: lu(through),
})
const byDefault = (high: number): DosePlan =>
  planDose({ highLu: lu(high), doses: surfaceDoses(DEFAULT_EMULSION) })

// Common practice, no source: what a shop's wall chart says of these media on a 90-48 fabric.
describe('oracle latitude-practice: common practice comes out of the default set-up', () => {
  test('fog limits of 51, 95 and 128 lu: set about 43, 70 and 82', () => {
    const about = { within: 0.75, because: 'said as "about", without decimals' }
    near(byDefault(51).recommendedLu, 43, about)
    near(byDefault(95).recommendedLu, 70, about)
    near(byDefault(128).recommendedLu, 82, about)
    const verdicts = [51, 95, 128].map((high) => byDefault(high).verdict)
    expect(verdicts).toEqual(['holds', 'durable', 'durable'])
  })

  test('step 7 solid is as far as it goes: 92 lu, however dense the film', () => {
    const about = { within: 0.75, because: 'said without decimals' }
    near(byDefault(380).recommendedLu, 92, about)
    near(byDefault(19_000).recommendedLu, 92, about)
  })

  test.each([
    ['soft pencil', 35, 45],
    ['fine pigment pen', 35, 45],
    ['drawing ink', 60, 80],
    ['grease marker', 60, 80],
    ['cut masking film', 70, 100],
  ])('%s is good at %d to %d lu', (name, low, high) => {
    const medium = mediumNamed(name)
    const plan = byDefault(fogLimitLu(lu(6), medium?.weakest.mean ?? density(0)))
    expect(plan.recommendedLu).toBeGreaterThan(low)
    expect(plan.recommendedLu).toBeLessThan(high)
  })

  test('pencil is filling at 65 lu and ink by 120: both above their fog limits', () => {
    expect(fogLimitLu(lu(6), density(0.93))).toBeLessThan(65)
    expect(fogLimitLu(lu(6), density(1.2))).toBeLessThan(120)
  })

  test('the bleaching twin gives the same advice within a step', () => {
    for (const medium of MEDIA) {
      const highLu = fogLimitLu(lu(6), medium.weakest.mean)
      const twin = planDose({ highLu, doses: surfaceDoses(DEFAULT_BLEACHING_EMULSION) })
      const apart = Math.log10(twin.recommendedLu / byDefault(highLu).recommendedLu)
      expect(Math.abs(apart)).toBeLessThan(0.15)
    }
  })
})

test('oracle step-seven: step 7 solid is 8.9 times the dose that holds step 1', () => {
  const plan = planDose({ highLu: lu(5000), doses: doses(4, 9, 31) })
  near(plan.recommendedLu / 9, 8.9, { within: 0.05, because: 'said to one decimal' })
})

test('a mark just under the full dose holds, soft inside, and the words say how to wash it', () => {
  const plan = planDose({ highLu: lu(50), doses: doses(6, 10, 52) })
  expect(plan).toMatchObject({ kind: 'dose', verdict: 'holds', lowLu: 10, fullLu: 52, highLu: 50 })
  expect(plan.reasons.join(' ')).toContain('hard through only from 52 lu')
  const advice = plan.advice.join(' ')
  const inOrder = ['low pressure', 'squeegee side', 'Blot', 'against the light before', 'short run']
  const found = inOrder.map((words) => advice.indexOf(words))
  expect(found).not.toContain(-1)
  expect(found).toEqual(found.toSorted((a, b) => a - b))
  expect(advice).toContain('do not look at the lamp')
})

test('a mark too weak for the coat gets no dose, what to do, and a number all the same', () => {
  const plan = planDose({ highLu: lu(8), doses: doses(6, 10, 52) })
  expect(plan.verdict).toBe('no dose')
  expect(plan.latitudeSteps).toBeLessThan(0)
  near(plan.recommendedLu, Math.sqrt(80), { within: 1e-12, because: 'the middle of 8 and 10' })
  const advice = plan.advice.join(' ')
  for (const words of ['once more', 'at most 8 lu', 'gently', 'post-expose it without the film']) {
    expect(advice).toContain(words)
  }
})

test('a limit exactly met is not passed', () => {
  expect(planDose({ highLu: lu(52), doses: doses(6, 10, 52) }).verdict).toBe('holds')
  expect(planDose({ highLu: lu(10), doses: doses(6, 10, 52) }).verdict).toBe('no dose')
})

test('a durable mark with little room is set soft, and the words own up to it', () => {
  const plan = planDose({ highLu: lu(55), doses: doses(6, 10, 52) })
  expect(plan.verdict).toBe('durable')
  expect(plan.recommendedLu).toBeLessThan(52)
  expect(plan.reasons.join(' ')).toContain('a little soft')
  expect(plan.advice.join(' ')).toContain('low pressure')
  expect(planDose({ highLu: lu(200), doses: doses(6, 10, 52) }).reasons).toHaveLength(1)
})

test('doses out of order, infinite or NaN are refused by name', () => {
  const plan = (high: number, of: SurfaceDoses) => () => planDose({ highLu: lu(high), doses: of })
  expect(plan(Number.NaN, doses(6, 10, 52))).toThrow('highLu: expected above 0 lu')
  expect(plan(Number.POSITIVE_INFINITY, doses(6, 10, 52))).toThrow('highLu')
  expect(plan(40, doses(6, 5, 52))).toThrow('holdDoseLu: expected at least 6 lu and finite, got 5')
  expect(plan(40, doses(6, 10, 9))).toThrow('throughDoseLu')
})

test('invariant: what is recommended opens the mark and holds, unless there is no dose', () => {
  const ratio = fc.double({ min: 1, max: 60, noNaN: true })
  const dose = fc.double({ min: 0.1, max: 900, noNaN: true })
  const mark = fc.double({ min: -0.1, max: 6, noNaN: true })
  fc.assert(
    fc.property(dose, ratio, ratio, mark, (gel, holdRatio, fullRatio, effective) => {
      const of = doses(gel, gel * holdRatio, gel * holdRatio * fullRatio)
      const plan = planDose({ highLu: fogLimitLu(lu(gel), density(effective)), doses: of })
      const inside = plan.lowLu < plan.recommendedLu && plan.recommendedLu < plan.highLu
      expect(inside).toBe(plan.verdict !== 'no dose')
      expect(plan.latitudeSteps > 0).toBe(plan.verdict !== 'no dose')
      expect(plan.fullLu < plan.highLu).toBe(plan.verdict === 'durable')
      expect(plan.reasons.length * plan.advice.length).toBeGreaterThan(0)
      near(10 ** (0.15 * plan.latitudeSteps), plan.highLu / plan.lowLu, {
        within: (1e-9 * plan.highLu) / plan.lowLu,
        because: 'a logarithm and back',
      })
    }),
    { seed: 34, numRuns: 500 },
  )
})
