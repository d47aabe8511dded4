import fc from 'fast-check'
import { expect, test } from 'vitest'
import { density, lu } from '../../units/quantity.ts'
import { doubtsAbout } from './doubts.ts'
import { groundEstimate } from './estimates.ts'
import type { Evidence, StripEvidence } from './evidence.ts'
import { GRADES, GROUND_GRADES, MARKS_GRADES } from './grades.ts'
import { outlookOn } from './question.ts'
import { recommendedDose } from './recommend.ts'
import { replay } from './replay.ts'
import type { Belief } from './state.ts'

const SHOP = { usualBaseDensity: density(0), secondsUnits: ['tubes'] }
const MEDIA = ['soft pencil', 'drawing ink', 'beetroot juice'] as const

/** Every number finite, every variance above 0, no two numbers more alike than one is to itself. */
function expectWhole({ gaussian: { mean, cov }, entries }: Belief): void {
  const size = entries.length
  expect(mean).toHaveLength(size)
  expect(cov).toHaveLength(size * size)
  for (let i = 0; i < size; i++) {
    expect(Number.isFinite(mean[i])).toBe(true)
    const own = cov[i * (size + 1)]
    expect(own).toBeGreaterThan(0)
    for (let j = 0; j < i; j++) {
      const other = cov[j * (size + 1)]
      expect(Math.abs(cov[i * size + j])).toBeLessThanOrEqual(Math.sqrt(own * other) * (1 + 1e-9))
      expect(cov[j * size + i]).toBe(cov[i * size + j])
    }
  }
}

const doseLu = fc.double({ min: -2, max: 6, noNaN: true }).map((log) => lu(10 ** log))
const band = fc.oneof(
  fc.record({ doseLu, grade: fc.constantFrom(...GRADES) }),
  fc.record({
    doseLu,
    ground: fc.constantFrom(...GROUND_GRADES),
    marks: fc.constantFrom(...MARKS_GRADES),
  }),
)
const where = fc.record({
  unit: fc.constantFrom('lamp', 'tubes'),
  emulsion: fc.constantFrom('a', 'b'),
  screen: fc.constantFrom('', '1', '2'),
  film: fc.constantFrom('', 'reeds'),
  day: fc.oneof(fc.constant(undefined), fc.integer({ min: -4_000_000, max: 4_000_000 })),
  lampHours: fc.oneof(fc.constant(undefined), fc.integer({ min: 0, max: 1_000_000 })),
  baseDensity: fc.double({ min: 0, max: 3, noNaN: true }).map(density),
})
const marks = fc.constantFrom(...MEDIA).map((medium) => ({ medium }))
const anything: fc.Arbitrary<Evidence> = fc.oneof(
  fc
    .tuple(where, doseLu, fc.integer({ min: 0, max: 21 }), fc.integer({ min: 1, max: 22 }))
    .map(([circumstances, dose, lastSolidStep, firstClearStep]): Evidence => {
      const wedge = { steps: 21, firstDensity: density(0.05), increment: density(0.15) }
      return { kind: 'wedge', doseLu: dose, wedge, lastSolidStep, firstClearStep, ...circumstances }
    }),
  fc
    .tuple(where, marks, fc.array(band, { minLength: 1, maxLength: 12 }))
    .map(([circumstances, of, bands]): Evidence => {
      return { kind: 'strip', marks: of, bands, ...circumstances }
    }),
  fc
    .tuple(where, marks, band)
    .map(([circumstances, of, { doseLu: dose, ...grading }]): Evidence => {
      const told = 'grade' in grading ? grading : { ticks: grading }
      return { kind: 'outcome', marks: of, doseLu: dose, ...told, ...circumstances }
    }),
)

test('invariant: whatever the form lets through, the belief stays whole and still has a dose', () => {
  fc.assert(
    fc.property(fc.array(anything, { minLength: 1, maxLength: 8 }), (evidence) => {
      const { belief } = replay(evidence, { shop: SHOP })
      expectWhole(belief)
      for (const medium of MEDIA) {
        const asked = { unit: 'lamp', emulsion: 'a', marks: [{ medium }] }
        const { doseLu: dose, lowLu, highLu, chances } = recommendedDose(outlookOn(belief, asked))
        for (const number of [dose, lowLu, highLu, ...Object.values(chances)]) {
          expect(Number.isFinite(number)).toBe(true)
        }
      }
    }),
    { seed: 91, numRuns: 60 },
  )
})

const screenful = (at: number, day: number): Evidence => ({
  kind: 'outcome',
  marks: { medium: MEDIA[at % 2] },
  doseLu: lu(38 + (at % 9)),
  grade: at % 4 === 0 ? 'soft' : 'good',
  screen: `screen ${at}`,
  film: `film ${at}`,
  unit: 'lamp',
  day,
})

test('a heap of a thousand screens on one day, each with its own name, leaves a small belief', () => {
  const heap = Array.from({ length: 1000 }, (_, at) => screenful(at, 20_000))
  const { belief } = replay(heap, { shop: SHOP })
  // Hold, skin, sound, unit, batch, fabric, recipe, two media, and 96 screens and films each.
  expect(belief.entries).toHaveLength(9 + 2 * 96)
  expectWhole(belief)
})

test('a bucket that nobody has heard of for longer than a year is forgotten', () => {
  const buckets = [0, 100, 200, 700].map((day): Evidence => {
    return { ...screenful(day, day), emulsion: `bucket of day ${day}` }
  })
  const { belief } = replay(buckets, { shop: SHOP })
  const named = belief.entries.flatMap(({ kind, name }) => (kind === 'batch' ? [name] : []))
  expect(named).toEqual(['bucket of day 700'])
})

const readings = Array.from({ length: 12 }, (_, at) => screenful(at, 20_000 + at))
const width = (belief: Belief): number => {
  const { low, high } = groundEstimate(belief, { unit: 'lamp', day: 20_020 }).holdDoseLu
  return Math.log10(high / low)
}

test('a date in the year 2190 is doubted, and costs no more than a factor of 1.7 either way', () => {
  const late = screenful(13, 80_353)
  expect(doubtsAbout(late, { today: 20_020 })).toHaveLength(1)
  const [usual, far] = [readings, [...readings, late]].map(
    (evidence) => replay(evidence, { shop: SHOP }).belief,
  )
  expectWhole(far)
  expect(width(far)).toBeLessThan(Math.hypot(width(usual), 2 * 1.645 * Math.sqrt(0.05)) + 0.05)
  expect(replay([...readings, late], { shop: SHOP, until: 20_020 }).belief).toEqual(usual)
})

test('lamp hours with three digits too many do not wipe out what is known of the lamp', () => {
  const hours = [400, 404, 408, 411_000, 416, 420].map((lampHours, at): Evidence => {
    return { ...screenful(at, 20_012 + at), lampHours }
  })
  const right = hours.map((each, at) => ({ ...each, lampHours: 400 + 4 * at }))
  const [slipped, usual] = [hours, right].map(
    (late) => replay([...readings, ...late], { shop: SHOP }).belief,
  )
  expectWhole(slipped)
  expect(width(slipped)).toBeLessThan(Math.hypot(width(usual), 2 * 1.645 * Math.sqrt(0.05)) + 0.05)
})

test('a strip whose bands contradict each other is doubted, and makes nobody much surer than a sound one', () => {
  const strip = (...grades: readonly (typeof GRADES)[number][]): StripEvidence => ({
    kind: 'strip',
    marks: { medium: MEDIA[0] },
    bands: grades.map((grade, at) => ({ doseLu: lu(20 * 1.4 ** at), grade })),
  })
  const muddled = strip('filled', 'washed off', 'good', 'washed off', 'soft', 'washed off')
  const sound = strip('washed off', 'soft', 'good', 'good', 'filling', 'filled')
  expect(doubtsAbout(muddled).length).toBeGreaterThan(2)
  expect(doubtsAbout(sound)).toEqual([])
  const [after, before] = [muddled, sound].map((each) => replay([each], { shop: SHOP }).belief)
  expectWhole(after)
  const hold = (belief: Belief): number => {
    const { low, high } = groundEstimate(belief, {}).holdDoseLu
    return Math.log10(high / low)
  }
  expect(hold(after)).toBeGreaterThan(0.8 * hold(before))
})
