import fc from 'fast-check'
import { expect, test } from 'vitest'
import { GRADES } from '../core/calibration/belief/grades.ts'
import { MEDIA } from '../core/film/media.ts'
import { isoOfDay } from './calendarDay.ts'
import { calibrate } from './calibrate.ts'
import { calibrationsFromJson } from './readCalibration.ts'

const medium = fc.constantFrom(...MEDIA.map(({ name }) => name), 'coffee')
const doseLu = fc.oneof(
  { weight: 5, arbitrary: fc.double({ min: 5, max: 300, noNaN: true }) },
  { weight: 1, arbitrary: fc.constantFrom(0.01, 1e6) },
)
const grade = fc.constantFrom(...GRADES)
const maybe = <Value>(arbitrary: fc.Arbitrary<Value>) => fc.option(arbitrary, { nil: undefined })
const name = fc.constantFrom('a', 'b')
const place = {
  day: maybe(
    fc.oneof(
      { weight: 5, arbitrary: fc.integer({ min: 20_000, max: 20_060 }) },
      { weight: 1, arbitrary: fc.constantFrom(-719_528, 80_400, 2_932_896) },
    ),
  ),
  lampHours: maybe(fc.integer({ min: 0, max: 3000 })),
  unit: maybe(name),
  emulsion: maybe(name),
  fabric: maybe(name),
  dyed: maybe(fc.boolean()),
  recipe: maybe(name),
  screen: maybe(name),
  film: maybe(name),
  baseDensity: maybe(fc.constantFrom(0, 0.35, 3)),
}
const evidence = fc.oneof(
  fc.record({
    kind: fc.constant('wedge'),
    doseLu,
    lastSolidStep: fc.integer({ min: 0, max: 21 }),
    firstClearStep: fc.constant(22),
    ...place,
  }),
  fc.record({
    kind: fc.constant('strip'),
    medium,
    bands: fc.array(fc.record({ doseLu, grade }), { minLength: 1, maxLength: 9 }),
    ...place,
  }),
  fc.record({ kind: fc.constant('outcome'), medium, doseLu, grade, ...place }),
)
const problem = fc.record({
  evidence: fc.array(evidence, { maxLength: 14 }),
  ask: fc.array(fc.record({ medium, ...place }), { maxLength: 2 }),
})

test('invariant: whatever was read, every number of the answer is one, in its order, and drift has its day', () => {
  fc.assert(
    fc.property(problem, fc.boolean(), (asked, dated) => {
      const withDates = JSON.parse(JSON.stringify(asked), (key, value: unknown) =>
        dated && key === 'day' ? isoOfDay(Number(value)) : value,
      ) as unknown
      const [read] = calibrationsFromJson(JSON.stringify(withDates)).problems
      const { gelDoseLu, holdDoseLu, media, answers, drift } = calibrate(read)
      const doses = [...answers, ...media].map(({ dose }) => dose)
      const ranges = [gelDoseLu, holdDoseLu, ...media.map(({ density }) => density), ...doses]
      for (const { value, low, high } of ranges) {
        expect(Number.isFinite(low) && Number.isFinite(high)).toBe(true)
        expect(low).toBeLessThanOrEqual(value)
        expect(value).toBeLessThanOrEqual(high)
      }
      for (const { chanceGood } of [...answers, ...media]) {
        expect(chanceGood).toBeGreaterThanOrEqual(0)
        expect(chanceGood).toBeLessThanOrEqual(1)
      }
      for (const { day, reason } of drift) {
        expect(typeof day).toBe(dated ? 'string' : 'number')
        expect(reason).toMatch(/\.$/)
      }
      expect(answers).toHaveLength(asked.ask.length)
    }),
    { seed: 41, numRuns: 30 },
  )
})
