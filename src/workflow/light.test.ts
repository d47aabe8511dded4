import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { replay } from '../core/calibration/belief/replay.ts'
import { near } from '../core/units/near.testing.ts'
import { density, lu, perCm, um } from '../core/units/quantity.ts'
import { lightFor } from './light.ts'
import { beliefShop, lightFirstDose, rememberedEvidence, secondsScale } from './lightFirstDose.ts'
import { beliefInMarks, densityThatCounts } from './lightMarks.ts'
import type { LightBase, LightExposure, LightScreen, LightShop, LightUnit } from './lightRecords.ts'
import { coatOf, counterDoses, lightSetup } from './lightSetup.ts'
import { sureWord } from './lightWord.ts'
import { DEFAULT_POINT, DEFAULT_SETUP } from './setup.ts'

const drafting: LightBase = {
  id: 'b1',
  name: 'matt drafting film',
  baseDensity: density(0.15),
  thicknessUm: um(90),
}
const unit: LightUnit = {
  id: 'u1',
  name: 'the lamp',
  lamp: DEFAULT_POINT,
  countsIn: 'light units',
  countsPerLu: 1,
  lampHours: 90,
}
const white: LightScreen = {
  id: 's1',
  name: 'screen 1',
  fabric: { id: 'f1', name: '90-48', threadsPerCm: perCm(90), threadUm: um(48), colour: 'white' },
  coating: null,
}
const shop: LightShop = { usualBase: drafting, secondsUnits: [] }
const day = 20_000
const { belief } = replay([], { shop: beliefShop(shop) })
const known = { belief, shop, day }

const asking = (medium: string, of: Partial<LightExposure> = {}): LightExposure => ({
  subject: { kind: 'medium', id: medium, name: medium },
  base: drafting,
  screen: white,
  unit,
  ...of,
})
const film = (weakest: number, along: readonly number[]): LightExposure =>
  asking('film', {
    subject: {
      kind: 'film',
      id: 'film 1',
      name: 'Reeds',
      medium: null,
      marks: {
        weakest: {
          xMm: 31,
          yMm: 47,
          density: density(weakest + 0.2),
          effectiveDensity: density(weakest),
        },
        along,
      },
    },
  })

test.each([
  ['soft pencil', 40],
  ['drawing ink', 53],
  ['cut masking film', 94],
])('oracle dose-rule: %s from the priors alone, as the rule was worked out', (medium, lu) => {
  const { dose, word } = lightFor(asking(medium), known)
  near(dose.value, lu, { within: 2, because: 'stated to whole light units, screen unknown' })
  expect(word).toBe('a first guess')
})

describe('a counter of its own scale', () => {
  const counter = { ...unit, countsPerLu: 1.35 }
  test('multiplies every dose of the answer and no chance', () => {
    const [one, other] = [
      lightFor(asking('drawing ink'), known),
      lightFor(asking('drawing ink', { unit: counter }), known),
    ]
    for (const key of ['value', 'low', 'high'] as const) {
      near(other.dose[key] / one.dose[key], 1.35, { within: 1e-9, because: 'the same belief' })
    }
    expect(other.chance).toEqual(one.chance)
    expect(other.reasons.join(' ')).toContain('it shows 135 for 100')
  })

  test('that nobody told of is refused by its field', () => {
    const nobody = { ...unit, countsIn: 'seconds', countsPerLu: null } as const
    expect(() => lightFor(asking('drawing ink', { unit: nobody }), known)).toThrow('in seconds')
  })
})

describe('a film that was read', () => {
  test('oracle iso5-1: marks so much denser take so much more light before they close', () => {
    const [pale, dense] = [film(0.9, [0.9]), film(1.2, [1.2])].map((each) => lightFor(each, known))
    near((dense?.cloth.along[0] ?? 0) / (pale?.cloth.along[0] ?? 1), 10 ** 0.3, {
      within: 1e-9,
      because: 'a density is a ratio',
    })
  })

  test('read from a photo is weighed against its medium, each by its doubt', () => {
    const { subject } = film(1.1, [1.1])
    if (subject.kind !== 'film') throw new Error('expected a film')
    const { marks } = subject
    const photo = { densitySd: density(0.2) }
    const both = beliefInMarks(marks, { photo, medium: 'soft pencil' })
    const because = 'by hand: two beliefs of 0.2 meet half way, 0.1 from film to film on top'
    near(both.mean, (1.1 + 0.93) / 2, { within: 1e-9, because })
    near(both.sd, Math.hypot(0.2 / Math.SQRT2, 0.1), { within: 1e-9, because })
    expect(beliefInMarks(marks, { photo: null, medium: 'soft pencil' }).mean).toBe(1.1)
    const doseOf = (medium: string | null, densitySd: number): number =>
      lightFor(
        asking('film', {
          subject: { ...subject, medium, photo: { densitySd: density(densitySd) } },
        }),
        known,
      ).dose.value
    // without a wedge another medium is another dose; with one it hardly is
    expect(doseOf('cut masking film', 0.23) / doseOf('graphite wash', 0.23)).toBeGreaterThan(1.5)
    expect(doseOf('cut masking film', 0.03) / doseOf('graphite wash', 0.03)).toBeLessThan(1.15)
  })

  test('no denser than hold over skin: no dose does both, and the advice is to draw denser', () => {
    const light = lightFor(film(0.1, [0.1, 0.2]), known)
    expect(light.verdict).toBe('no dose')
    expect(light.advice[0]).toContain('denser')
    expect(light.advice.join(' ')).toMatch(/set at most \d+(\.\d)? light units/)
  })

  test('goes by what nine tenths of its marks’ length reach, near its very weakest where all is solid', () => {
    const counts = (weakest: number, along: readonly number[]): number =>
      densityThatCounts({
        weakest: {
          xMm: 1,
          yMm: 2,
          density: density(weakest),
          effectiveDensity: density(weakest),
        },
        along,
      })
    const nine = (from: number, step: number): readonly number[] =>
      Array.from({ length: 9 }, (_, at) => from + step * at)
    // a tenth of nine parts lies at 0.4 between the middles of the first two
    const because = 'by hand'
    near(counts(0.3, nine(0.6, 0.1)), 0.64, { within: 1e-9, because })
    near(counts(0.5, nine(2, 0)), 0.75, { within: 1e-9, because }) // one fine line among solids
    near(counts(0.5, nine(0.9, 0.01)), 0.5 + 0.25 + 0.036, { within: 1e-9, because })
    expect(counts(0.5, [0.4])).toBe(0.5)
    expect(counts(0.5, [])).toBe(0.5)
    expect(counts(-0.1, [-0.05])).toBe(0)
  })
})

test('a coat that was read itself says what another one coated alike wants', () => {
  const coated = (id: string): LightScreen => ({
    ...white,
    coating: { id, overMeshUm: null, coats: 'once on each side', emulsion: null },
  })
  const read = replay(
    [
      {
        kind: 'wedge',
        doseLu: lu(60),
        wedge: { steps: 21, firstDensity: density(0.05), increment: density(0.15) },
        lastSolidStep: 4,
        firstClearStep: 6,
        unit: unit.id,
        fabric: white.fabric.id,
        recipe: 'once on each side',
        screen: 'c1',
        day,
      },
    ],
    { shop: beliefShop(shop) },
  )
  const of = (coat: string) =>
    lightFor(asking('soft pencil', { screen: coated(coat) }), { ...known, belief: read.belief })
  const [own, other] = [of('c1'), of('c2')]
  expect(own.reasons.join(' ')).toContain(
    `on this very coat of screen 1: another screen coated alike wants about ${Math.round(other.dose.value)} light units.`,
  )
  expect(own.dose.value).not.toBeCloseTo(other.dose.value, 0)
  expect(other.reasons.join(' ')).not.toContain('this very coat')
})

test('oracle default-emulsion: a white 90-48 screen coated as usual is the default set-up', () => {
  expect(coatOf(white)).toEqual({ thicknessUm: 80, anchorDepthUm: 20 })
  const setup = lightSetup({ base: drafting, screen: white, unit })
  expect(setup.emulsion).toEqual(DEFAULT_SETUP.emulsion)
  expect(setup.scatter).toEqual(DEFAULT_SETUP.scatter)
  const doses = counterDoses(belief, asking('soft pencil'), { day })
  near(doses.gelDoseLu, 6, { within: 0.1, because: 'skin 6, hold 10.3, full 52 lu' })
  near(doses.holdDoseLu, 10.3, { within: 0.1, because: 'skin 6, hold 10.3, full 52 lu' })
  near(doses.throughDoseLu, 52, { within: 0.5, because: 'skin 6, hold 10.3, full 52 lu' })
})

test('invariant: the dose lies in its range, the range in the cloth, chances in 0 … 1', () => {
  const marks = fc.double({ min: 0, max: 4, noNaN: true })
  fc.assert(
    fc.property(marks, marks, (one, other) => {
      const { dose, cloth, chance } = lightFor(
        film(
          Math.min(one, other),
          [one, other].toSorted((a, b) => a - b),
        ),
        known,
      )
      expect(dose.low).toBeLessThanOrEqual(dose.value)
      expect(dose.value).toBeLessThanOrEqual(dose.high)
      expect(cloth.lowLu).toBeLessThan(dose.low)
      expect(cloth.highLu).toBeGreaterThan(dose.high)
      for (const share of Object.values(chance)) expect(share >= 0 && share <= 1).toBe(true)
    }),
    { numRuns: 25, seed: 311 },
  )
})

describe('seconds', () => {
  const lamp = { ...unit, countsIn: 'seconds' } as const
  const exposure = asking('soft pencil', { unit: lamp })
  const scaleOf = (outcome: Parameters<typeof secondsScale>[0]['outcome']): number =>
    secondsScale({ medium: 'soft pencil', doseCounts: 100, outcome }, { shop, exposure, day })

  test('the same time that washed off says a weaker lamp than one that filled', () => {
    const grades = ['washed off', 'soft', 'good', 'filling', 'filled'] as const
    const scales = grades.map(scaleOf)
    expect(scales).toEqual(scales.toSorted((a, b) => b - a))
  })

  test('what came out good is about what is advised', () => {
    const remembered = [{ medium: 'soft pencil', doseCounts: 100, outcome: 'good' }] as const
    const told = { ...exposure, unit: { ...lamp, countsPerLu: scaleOf('good') } }
    const { dose } = lightFirstDose(told, { shop, remembered, day })
    near(dose.value, 100, { within: 5, because: 'it was good, and nothing else is known' })
  })
})

test('what is remembered is an outcome on a screen of which nobody knows which it was', () => {
  const remembered = { medium: 'drawing ink', doseCounts: 54, outcome: 'filling' } as const
  const counter = { ...unit, countsPerLu: 1.35 }
  const evidence = rememberedEvidence(remembered, asking('x', { unit: counter }), { day })
  expect(evidence).toMatchObject({ kind: 'outcome', grade: 'filling', unit: 'u1', day })
  expect(evidence.screen).toBeUndefined()
  near('doseLu' in evidence ? evidence.doseLu : 0, 40, { within: 1e-9, because: '54 / 1.35' })
})

test('the word follows the chance once the room has told something', () => {
  const word = (chanceGood: number, tests: number, outcomes: number, ofTheseMarks = 1) =>
    sureWord({ chanceGood, heard: { tests, outcomes, ofTheseMarks }, subject: 'medium' })
  expect(word(0.95, 0, 0)).toBe('a first guess')
  expect(word(0.95, 0, 1)).toBe('a first guess')
  expect(word(0.95, 1, 0)).toBe('sure')
  expect(word(0.75, 0, 2)).toBe('fairly sure')
  expect(word(0.55, 2, 0)).toBe('in doubt')
  expect(word(0.2, 3, 3)).toBe('a first guess')
  expect(word(0.95, 9, 20, 0)).toBe('a first guess')
})
