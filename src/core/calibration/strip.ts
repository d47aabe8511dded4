import { Failure } from '../failure.ts'
import { DOSE } from '../light/doseField.ts'
import { type Lu, lu } from '../units/quantity.ts'
import { expectIn, type Range } from '../units/range.ts'

/** A strip of bands with their doses, and the counter settings that make them. */
export type Strip = Readonly<{
  kind: 'strip'
  /** Band 1 has the least dose. */
  bands: readonly Readonly<{ number: number; doseLu: Lu }>[]
  /** In the order they are set; before each one more band is uncovered, the largest dose first. */
  incrementsLu: readonly Lu[]
}>

/** Bands of a test strip. */
export const BANDS: Range = { name: 'bands', low: 2, high: 60, unit: 'bands', whole: true }

/**
 * A test strip: doses in equal ratios from low to high, by uncovering one band after another.
 *
 * Band k has low · (high/low)^((k − 1)/(N − 1)). The band of the largest dose is uncovered first
 * and sees every setting; the last setting, for which all are uncovered, is the least dose itself.
 * A band's dose is the sum of the settings from its uncovering on.
 *
 * @param range lowLu below highLu, each 0.01 … 1000000 lu; bands whole, 2 … 60
 * @throws RangeError outside these ranges
 * @throws Failure 'wrong input' when lowLu is not below highLu
 * @source test-strip
 * @limits dose = light × time: a lamp that is lit afresh for each setting warms up afresh each time
 */
export function planStrip({
  lowLu,
  highLu,
  bands,
}: Readonly<{ lowLu: Lu; highLu: Lu; bands: number }>): Strip {
  expectIn(lowLu, { ...DOSE, name: 'lowLu' })
  expectIn(highLu, { ...DOSE, name: 'highLu' })
  expectIn(bands, BANDS)
  if (lowLu >= highLu) {
    throw new Failure(
      'wrong input',
      `A strip runs from a low dose to a higher one, and ${lowLu} lu is not below ${highLu} lu: ` +
        'change one of the two.',
      { field: 'lowLu' },
    )
  }
  const doses = Array.from({ length: bands }, (_, at) =>
    // The ends are exact; only what lies between is reckoned.
    at === bands - 1 ? highLu : lu(lowLu * (highLu / lowLu) ** (at / (bands - 1))),
  )
  const below = (at: number): number => doses[at - 1] ?? 0
  return {
    kind: 'strip',
    bands: doses.map((doseLu, at) => ({ number: at + 1, doseLu })),
    incrementsLu: doses.map((doseLu, at) => lu(doseLu - below(at))).reverse(),
  }
}
