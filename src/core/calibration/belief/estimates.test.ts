import { expect, test } from 'vitest'
import { near } from '../../units/near.testing.ts'
import { density, lu } from '../../units/quantity.ts'
import { fogEstimate, groundEstimate, mediumEstimate, outlookQuantile } from './estimates.ts'
import { replay } from './replay.ts'
import { startBelief } from './state.ts'

const SHOP = { usualBaseDensity: density(0), secondsUnits: [] }
const START = startBelief(SHOP)

test('oracle default-emulsion: before any reading skin is near 6, hold near 10.3 lu', () => {
  const { gelDoseLu, holdDoseLu, soundDoseLu } = groundEstimate(START, {})
  near(gelDoseLu.value, 6, { within: 0.01, because: 'two decimals of log10' })
  near(holdDoseLu.value, 10.3, { within: 0.01, because: 'three decimals of log10' })
  near(soundDoseLu.value / holdDoseLu.value, 10 ** 0.45, { within: 1e-6, because: 'halving' })
  // Without the screen: 0.15, 0.12, 0.06, 0.08 and 0.06, squared and summed.
  const sd = Math.sqrt(0.0225 + 0.0144 + 0.0036 + 0.0064 + 0.0036)
  near(Math.log10(holdDoseLu.high / holdDoseLu.value), 1.6448536 * sd, {
    within: 1e-6,
    because: 'halving',
  })
  near(holdDoseLu.low * holdDoseLu.high, holdDoseLu.value ** 2, {
    within: 1e-5 * holdDoseLu.value ** 2,
    because: 'even in steps',
  })
  expect(holdDoseLu.confidence).toBe(0.9)
})

test('a medium is what the table says until its films say otherwise', () => {
  near(mediumEstimate(START, 'Soft  Pencil').value, 0.93, { within: 1e-12, because: 'the table' })
  near(mediumEstimate(START, 'soft pencil').high, 0.93 + 1.6448536 * 0.2, {
    within: 1e-6,
    because: 'digits',
  })
  const dark = Array.from({ length: 12 }, () => ({
    kind: 'outcome' as const,
    marks: { medium: 'soft pencil' },
    doseLu: lu(90),
    grade: 'good' as const,
    day: 1,
  }))
  const { belief } = replay(dark, { shop: SHOP })
  expect(mediumEstimate(belief, 'soft pencil').value).toBeGreaterThan(1)
  const fog = fogEstimate(belief, { marks: { medium: 'soft pencil' } })
  expect(fog.value).toBeGreaterThan(90)
  expect(fog.high / fog.low).toBeLessThan(
    fogEstimate(START, { marks: { medium: 'soft pencil' } }).high /
      fogEstimate(START, { marks: { medium: 'soft pencil' } }).low,
  )
})

test('a quantile of two parts lies where both together leave it', () => {
  const part = (mean: number, sd: number) => ({
    mean: Float64Array.of(mean),
    cov: Float64Array.of(sd ** 2),
  })
  const outlook = {
    marks: 0,
    parts: [
      { share: 0.75, gaussian: part(0, 1) },
      { share: 0.25, gaussian: part(100, 1) },
    ],
  }
  // 0.375 of all lies below the middle of the first part.
  near(outlookQuantile(outlook, { at: 0, part: 0.375 }), 0, { within: 1e-7, because: 'halving' })
  near(outlookQuantile(outlook, { at: 0, part: 0.875 }), 100, { within: 1e-5, because: 'halving' })
})
