import { DOSE } from '../light/doseField.ts'
import type { Lu, Share } from '../units/quantity.ts'
import { type Density, type Doubtful, density, share } from '../units/quantity.ts'
import { expectIn, type Range } from '../units/range.ts'

/** A step wedge: step n has density firstDensity + increment · (n − 1). */
export type Wedge = Readonly<{ steps: number; firstDensity: Density; increment: Density }>

/** The usual wedge: 21 half stops from 0.05 D.
 * @source step-wedge */
export const USUAL_WEDGE: Wedge = {
  steps: 21,
  firstDensity: density(0.05),
  increment: density(0.15),
}

/** The step that is usually wanted as the last solid one.
 * @source step-seven */
export const USUAL_TARGET_STEP = 7

/** From one step of a wedge to the next. */
export const INCREMENT: Range = { name: 'increment', low: 0.01, high: 0.6, unit: 'D' }
/** The clearest step: its base. */
export const FIRST_DENSITY: Range = { name: 'firstDensity', low: 0, high: 1, unit: 'D' }
/** How many steps a wedge has. */
export const WEDGE_STEPS: Range = { name: 'steps', low: 2, high: 61, unit: 'steps', whole: true }
/** A step's number; step 1 is the clearest. */
export const STEP: Range = { name: 'step', low: 1, high: 61, unit: '', whole: true }

/** A screen's own scatter beside that of the reading, D. */
const SCREEN_SD = 0.05
/** Normal deviate that leaves 5 % on either side. */
const NINETY_PERCENT = 1.645

/** What one wedge asks of the next exposure. */
export type WedgeReading = Readonly<{ kind: 'wedge'; factor: number; nextDoseLu: Doubtful }>

/**
 * The dose that makes the target step S the last solid one, when K was: f = 10^(i (S − K)).
 *
 * One reading of a wedge is known to about half a step and a screen differs from the next by
 * 0.05 D, so nine times in ten the truth lies within 10^(1.645 √(i²/3 + 0.05²)) either way.
 *
 * @param reading doseLu 0.01 … 1000000 lu; K = lastSolidStep and S = targetStep, whole, 1 … 61;
 * i = increment 0.01 … 0.6 D
 * @returns the factor, above 0, and dose · factor with its 90 % range
 * @throws RangeError outside these ranges
 * @source step-wedge, wedge-noise
 * @limits dose = light × time; one lamp, one coating, one emulsion; a true wedge rightly read
 */
export function readWedge({
  doseLu,
  lastSolidStep,
  targetStep,
  increment,
}: Readonly<{
  doseLu: Lu
  lastSolidStep: number
  targetStep: number
  increment: Density
}>): WedgeReading {
  expectIn(doseLu, DOSE)
  expectIn(lastSolidStep, { ...STEP, name: 'lastSolidStep' })
  expectIn(targetStep, { ...STEP, name: 'targetStep' })
  expectIn(increment, INCREMENT)
  const factor = 10 ** (increment * (targetStep - lastSolidStep))
  const value = doseLu * factor
  const either = 10 ** (NINETY_PERCENT * Math.sqrt(increment ** 2 / 3 + SCREEN_SD ** 2))
  return {
    kind: 'wedge',
    factor,
    nextDoseLu: { value, low: value / either, high: value * either, confidence: 0.9 },
  }
}

/**
 * What each step lets through: T = 10^−(first + increment · (n − 1)).
 *
 * @param wedge steps 2 … 61, firstDensity 0 … 1 D, increment 0.01 … 0.6 D
 * @returns one share for each step, step 1 first, falling
 * @throws RangeError outside these ranges
 * @source iso5-1, step-wedge
 */
export function wedgeTransmissions({ steps, firstDensity, increment }: Wedge): readonly Share[] {
  expectIn(steps, WEDGE_STEPS)
  expectIn(firstDensity, FIRST_DENSITY)
  expectIn(increment, INCREMENT)
  return Array.from({ length: steps }, (_, at) => share(10 ** -(firstDensity + increment * at)))
}
