import { expect, test } from 'vitest'
import { density, lu } from '../../units/quantity.ts'
import type { Circumstances } from '../belief/evidence.ts'
import { type Kept, replay } from '../belief/replay.ts'
import { startBelief } from '../belief/state.ts'
import { bestTest } from './bestTest.ts'

const SHOP = { usualBaseDensity: density(0), secondsUnits: [] }
const MEDIA = ['soft pencil', 'drawing ink', 'cut masking film', 'grease marker'] as const
const words = {
  nameOf: (_: string, name: string): string => name,
  amount: (doseLu: number): string => `${doseLu.toFixed(0)} light units`,
}
const wedge = (where: Circumstances): Kept => ({
  kind: 'wedge',
  doseLu: lu(60),
  wedge: { steps: 21, firstDensity: density(0.05), increment: density(0.15) },
  lastSolidStep: 5,
  firstClearStep: 7,
  ...where,
})
const usesOn = (day: number | undefined, media: readonly string[] = MEDIA) =>
  media.map((medium) => ({ question: { day, marks: [{ medium }] } }))

/** Six weeks of a wedge and a good screen in each medium. */
const WEEKS = Array.from({ length: 6 }, (_, week) => [
  wedge({ day: 7 * week }),
  ...MEDIA.map((medium, at): Kept => {
    const doseLu = lu([44, 60, 80, 60][at])
    return { kind: 'outcome', doseLu, grade: 'good', marks: { medium }, day: 7 * week + 1 }
  }),
]).flat()
const KNOWN = replay(WEEKS, { shop: SHOP }).belief

test('a new shop is told to make a strip, and how many screens that makes good', () => {
  const best = bestTest(startBelief(SHOP), { uses: usesOn(undefined), words })
  expect(['strip', 'second film']).toContain(best.kind)
  expect(best.bands).toBe(6)
  expect(MEDIA).toContain(best.medium)
  expect(best.gain).toBeGreaterThan(1)
  expect(best.sentence).toMatch(
    /^One strip today .*, \d\d minutes: then \d screens in 10 come good, not \d\.$/,
  )
})

test('a shop that knows its doses is told to keep a wedge on the margin', () => {
  const best = bestTest(KNOWN, { uses: usesOn(38), words })
  expect(best).toMatchObject({ kind: 'wedge', minutes: 0, medium: null, bands: null })
  expect(best.sentence).toMatch(/^A wedge on the margin of the next screen takes no time: /)
})

test('of two media the one that nobody has told anything of gets the strip', () => {
  const uses = usesOn(38, ['soft pencil', 'fine pigment pen', 'drawing ink'])
  const best = bestTest(KNOWN, { uses, words })
  expect(best.medium).toBe('fine pigment pen')
  // Hardly anybody uses it: then it is not worth a quarter of an hour.
  const rare = uses.map((use, at) => (at === 1 ? { ...use, weight: 0.01 } : use))
  expect(bestTest(KNOWN, { uses: rare, words }).kind).toBe('wedge')
})

test('a lamp and a fabric that never met are brought together where that is to be used', () => {
  const two = [
    { unit: 'big', fabric: 'fine' },
    { unit: 'small', fabric: 'coarse' },
  ]
  const evidence = Array.from({ length: 6 }, (_, week) =>
    two.map((where) => wedge({ ...where, day: 7 * week })),
  ).flat()
  const strip = (where: Circumstances): Kept => ({
    kind: 'strip',
    marks: { medium: 'cut masking film' },
    bands: [20, 30, 45, 68].map((dose, at) => {
      return { doseLu: lu(dose), grade: at === 0 ? ('soft' as const) : ('good' as const) }
    }),
    ...where,
  })
  const told = two.map((where) => strip({ ...where, day: 36 }))
  const belief = replay([...evidence, ...told], { shop: SHOP }).belief
  const marks = [{ medium: 'cut masking film' }]
  const crossed = { unit: 'big', fabric: 'coarse', day: 37, marks: [{ medium: 'soft pencil' }] }
  const best = bestTest(belief, {
    uses: [{ question: { ...two[0], day: 37, marks } }, { question: crossed, weight: 0.05 }],
    crossings: [crossed],
    words,
  })
  expect(best.kind === 'crossing' || best.kind === 'wedge').toBe(true)
  const often = bestTest(belief, {
    uses: [{ question: { ...two[0], day: 37, marks } }, { question: crossed, weight: 1 }],
    crossings: [crossed],
    words,
  })
  expect(often.kind).not.toBe('wedge')
})

test('where nothing is in use nobody can say what to test', () => {
  expect(() => bestTest(KNOWN, { uses: [], words })).toThrow(RangeError)
})
