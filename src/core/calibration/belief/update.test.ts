import { expect, test } from 'vitest'
import { near } from '../../units/near.testing.ts'
import { density, lu } from '../../units/quantity.ts'
import { sampledPosterior } from './batchPosterior.testing.ts'
import { randomFrom } from './draws.testing.ts'
import { groundEstimate } from './estimates.ts'
import type { Evidence, OutcomeEvidence, StripEvidence, WedgeEvidence } from './evidence.ts'
import { projected } from './gaussian.ts'
import { GRADES, type Grade } from './grades.ts'
import { type Belief, placeOf, startBelief } from './state.ts'
import { touched } from './touch.ts'
import { taughtBy } from './update.ts'

const SHOP = { usualBaseDensity: density(0), secondsUnits: [] }
const WEDGE = { steps: 21, firstDensity: density(0.05), increment: density(0.15) }
const taught = (evidence: readonly Evidence[], from: Belief = startBelief(SHOP)): Belief =>
  evidence.reduce((belief, each) => taughtBy(belief, each).belief, from)

const sdOf = (
  belief: Belief,
  kind: 'skin' | 'sound' | 'unit' | 'batch' | 'screen',
  name = '',
): number => {
  const at = placeOf(belief, { kind, name })
  return Math.sqrt(belief.gaussian.cov[at * (belief.entries.length + 1)])
}

const wedge = (lastSolidStep: number, more: Partial<WedgeEvidence> = {}): WedgeEvidence => ({
  kind: 'wedge',
  doseLu: lu(61),
  wedge: WEDGE,
  lastSolidStep,
  ...more,
})

test('a wedge alone knows only the total: unit, batch and the rest stay apart as little as before', () => {
  const belief = taught([wedge(5), wedge(6), wedge(5), wedge(5)])
  const { mean, cov } = projected(belief.gaussian, [touched(belief, {}).hold])
  // x − D1 − 0.15 · (k − 1/2): between step 5 and 6 the hold dose is near 10^(1.785 − 0.05 − 0.7).
  near(mean[0], Math.log10(61) - 0.05 - 0.15 * 4.75, { within: 0.06, because: 'the prior pulls' })
  expect(Math.sqrt(cov[0])).toBeLessThan(0.08)
  expect(sdOf(belief, 'unit')).toBeGreaterThan(0.09)
  expect(sdOf(belief, 'skin')).toBe(0.08)
  expect(sdOf(belief, 'sound')).toBe(0.15)
})

test('the first clear step tells how far skin and hold are apart', () => {
  const both = taught([wedge(5, { firstClearStep: 7 }), wedge(6, { firstClearStep: 8 })])
  expect(sdOf(both, 'skin')).toBeLessThan(0.065)
})

test('a wedge far off all belief is followed, for a counter may count in anything', () => {
  // Ten thousand on the counter where the belief expects about 60: its hold dose is 166 times ours.
  const far = Array.from({ length: 6 }, () => wedge(5, { doseLu: lu(10_000) }))
  const { holdDoseLu } = groundEstimate(taught(far), {})
  const read = 10_000 / 10 ** (0.05 + 0.15 * 4.5)
  near(Math.log10(holdDoseLu.value / read), 0, { within: 0.15, because: 'six wedges of one step' })
})

test('a margin wedge and the outcome beside it share their screen', () => {
  const screen = { screen: '14', film: 'reeds' }
  const outcome: OutcomeEvidence = {
    kind: 'outcome',
    marks: { medium: 'soft pencil' },
    doseLu: lu(33),
    grade: 'washed off',
    ...screen,
  }
  const shared = taught([wedge(6, screen), outcome])
  const apart = taught([wedge(6, { screen: '12' }), outcome])
  const meanOf = (belief: Belief, name: string): number =>
    belief.gaussian.mean[placeOf(belief, { kind: 'screen', name })]
  expect(sdOf(shared, 'screen', '14')).toBeLessThan(sdOf(apart, 'screen', '14'))
  expect(Math.abs(meanOf(shared, '14') - meanOf(apart, '14'))).toBeGreaterThan(1e-3)
})

test('a screen told by two ticks says of its ground what one word leaves out', () => {
  const outcome = { kind: 'outcome', marks: { medium: 'soft pencil' }, doseLu: lu(37) } as const
  const word = taught([{ ...outcome, grade: 'filled' }])
  const soundOf = (belief: Belief): number =>
    belief.gaussian.mean[placeOf(belief, { kind: 'sound', name: '' })]
  const soft = taught([{ ...outcome, ticks: { ground: 'soft', marks: 'filled' } }])
  const sound = taught([{ ...outcome, ticks: { ground: 'sound', marks: 'filled' } }])
  expect(soundOf(soft)).toBeGreaterThan(soundOf(word) + 0.02)
  expect(soundOf(sound)).toBeLessThan(soundOf(word) - 0.01)
  // Soft and open, sound and open are what the words soft and good mean: only the slips differ.
  const open = taught([{ ...outcome, ticks: { ground: 'soft', marks: 'open' } }])
  near(soundOf(open), soundOf(taught([{ ...outcome, grade: 'soft' }])), {
    within: 2e-3,
    because: 'a slip is one of seven answers in place of five',
  })
})

test('where the ground is gone a tick for the marks says nothing', () => {
  const outcome = { kind: 'outcome', marks: { medium: 'soft pencil' }, doseLu: lu(12) } as const
  const bare = taught([{ ...outcome, ticks: { ground: 'washed off' } }])
  const ticked = taught([{ ...outcome, ticks: { ground: 'washed off', marks: 'filled' } }])
  expect(ticked).toEqual(bare)
})

test('two buckets are told apart when both are tried, and not when only one is', () => {
  const hour = [5, 5, 6, 5].flatMap((step, at) => [
    wedge(step, { emulsion: 'old', screen: `a${at}` }),
    wedge(step + 1, { emulsion: 'new', screen: `b${at}` }),
  ])
  const difference = (belief: Belief): number => {
    const places = ['old', 'new'].map((name) => placeOf(belief, { kind: 'batch', name }))
    const row = { at: places, times: [1, -1], offset: 0 }
    return Math.sqrt(projected(belief.gaussian, [row]).cov[0])
  }
  const crossed = taught(hour)
  expect(difference(crossed)).toBeLessThan(0.06)
  expect(sdOf(crossed, 'batch', 'old')).toBeGreaterThan(0.04)
})

test.each([81, 87])('oracle moment-matching: step by step as all at once, shop %d', (seed) => {
  const { evidence, unknowns, logLikelihood } = sampleShop(seed)
  const watch = (x: Float64Array): number[] => [x[0] + x[1], x[0] + x[2], x[3], x[4], x[5], x[6]]
  const expected = sampledPosterior(unknowns, logLikelihood, { steps: 40_000, seed, watch })
  const belief = taught(evidence)
  const found = projected(belief.gaussian, rowsOf(belief))
  expected.mean.forEach((mean, i) => {
    const sd = Math.sqrt(found.cov[i * (expected.mean.length + 1)])
    near((found.mean[i] - mean) / expected.sd[i], 0, {
      within: 0.25,
      because: 'Gaussians on the way and the noise of the sampler: 0.20 seen in ten other shops',
    })
    near(sd / expected.sd[i], 1, { within: 0.15, because: 'likewise: 0.90 to 1.12 seen' })
  })
})

/** Total of each batch's ground, skin, sound, two media: what the readings can tell. */
function rowsOf(belief: Belief): ReturnType<typeof touched>['hold'][] {
  const bare = (emulsion: string): ReturnType<typeof touched>['hold'] => {
    const { hold } = touched(belief, { emulsion })
    return { ...hold, at: hold.at.slice(0, -1), times: hold.times.slice(0, -1) }
  }
  const single = (kind: 'skin' | 'sound' | 'medium', name: string): ReturnType<typeof bare> => ({
    at: [placeOf(belief, { kind, name })],
    times: [1],
    offset: 0,
  })
  return [
    bare('one'),
    bare('two'),
    single('skin', ''),
    single('sound', ''),
    single('medium', 'soft pencil'),
    single('medium', 'drawing ink'),
  ]
}

/**
 * A shop's first day: three wedges, two strips, six screens with two batches and two media; the
 * readings drawn from the truth, and their likelihood written apart from the code under test.
 */
function sampleShop(seed: number): {
  evidence: readonly Evidence[]
  unknowns: readonly Readonly<{ mean: number; sd: number }>[]
  logLikelihood: (x: Float64Array) => number
} {
  const { normal, uniform, one } = randomFrom(seed)
  // hold and unit and fabric and recipe together; the two batches; skin; sound; two media.
  const shared = Math.sqrt(0.15 ** 2 + 0.12 ** 2 + 0.08 ** 2 + 0.06 ** 2)
  const batch = 0.06
  const unknowns = [
    { mean: 1.013, sd: shared },
    { mean: 0, sd: batch },
    { mean: 0, sd: batch },
    { mean: 0.235, sd: 0.08 },
    { mean: 0.45, sd: 0.15 },
    { mean: 0.93, sd: 0.2 },
    { mean: 1.2, sd: 0.22 },
  ]
  const first = unknowns.length
  const kinds = ['wedge', 'wedge', 'wedge', 'strip', 'strip', ...Array(6).fill('outcome')] as const
  const places = kinds.map((kind, at) => {
    const screen = first + 2 * at
    unknowns.push({ mean: 0, sd: 0.05 }, { mean: 0, sd: 0.1 })
    return {
      kind,
      screen,
      batch: at % 2,
      medium: kind === 'strip' ? at % 2 : Math.floor(at / 2) % 2,
    }
  })
  const truth = Float64Array.from(unknowns, ({ mean, sd }) => mean + sd * normal())
  const at = (x: Float64Array, place: (typeof places)[number]): [number, number, number] => {
    const hold = x[0] + x[1 + place.batch] + x[place.screen]
    return [hold, hold + x[4], hold - x[3] + x[5 + place.medium] + x[place.screen + 1]]
  }
  const evidence = places.map((place): Evidence => {
    const common = {
      emulsion: ['one', 'two'][place.batch],
      marks: { medium: ['soft pencil', 'drawing ink'][place.medium] },
    }
    const [hold, sound, fog] = at(truth, place)
    const graded = (doseLu: number, lapse: number): Grade => {
      if (uniform() < lapse) return one(GRADES)
      let left = uniform()
      const chances = gradesOf(Math.log10(doseLu), [hold, sound, fog])
      return GRADES[chances.findIndex((chance) => (left -= chance) < 0)] ?? 'good'
    }
    if (place.kind === 'wedge') {
      const passed = (z: number): number => Math.floor(stepsOf(z) + 0.5 * normal())
      const firstClearStep = Math.max(1, Math.min(22, passed(hold - truth[3]) + 1))
      const lastSolidStep = Math.max(0, Math.min(21, passed(hold)))
      return { ...wedge(lastSolidStep, { firstClearStep }), ...common }
    }
    if (place.kind === 'strip') {
      const bands = [16, 22, 31, 43, 60, 84, 118].map((dose) => ({
        doseLu: lu(dose),
        grade: graded(dose, 0.02),
      }))
      return { kind: 'strip', bands, ...common } satisfies StripEvidence
    }
    const doseLu = lu(25 + 60 * uniform())
    return { kind: 'outcome', doseLu, grade: graded(doseLu, 0.05), ...common }
  })
  const logLikelihood = (x: Float64Array): number => {
    let sum = 0
    evidence.forEach((each, i) => {
      const z = at(x, places[i])
      if (each.kind === 'wedge') {
        sum += Math.log(passedChance(stepsOf(z[0]), each.lastSolidStep) + 1e-300)
        const clear = (each.firstClearStep ?? 1) - 1
        sum += Math.log(passedChance(stepsOf(z[0] - x[3]), clear) + 1e-300)
        return
      }
      const bands = each.kind === 'strip' ? each.bands : [each]
      const lapse = each.kind === 'strip' ? 0.02 : 0.05
      for (const band of bands) {
        const chances = gradesOf(Math.log10(band.doseLu), z)
        const grade = 'grade' in band ? band.grade : 'good'
        sum += Math.log((1 - lapse) * chances[GRADES.indexOf(grade)] + lapse / 5)
      }
    })
    return sum
  }
  return { evidence, unknowns, logLikelihood }
}

const stepsOf = (z: number): number => (Math.log10(61) - 0.05 - z) / 0.15 + 1

function passedChance(mu: number, steps: number): number {
  const low = steps <= 0 ? 0 : phi((steps - mu) / 0.5)
  return (steps >= 21 ? 1 : phi((steps + 1 - mu) / 0.5)) - low
}

/** Washed off, soft, good, filling, filled. */
function gradesOf(x: number, [hold, sound, fog]: readonly number[]): number[] {
  const washed = phi((hold - x) / 0.03)
  const isSound = Math.min(1 - washed, phi((x - sound) / 0.03))
  const open = phi((fog - x) / 0.04)
  const filled = phi((x - fog - 0.1) / 0.04)
  const held = 1 - washed
  return [
    washed,
    (held - isSound) * open,
    isSound * open,
    held * (1 - open - filled),
    held * filled,
  ]
}

/** Φ by the logistic-free five-term approximation 26.2.17 of Abramowitz and Stegun, to 7.5e-8. */
function phi(x: number): number {
  if (x < 0) return 1 - phi(-x)
  const t = 1 / (1 + 0.2316419 * x)
  const poly =
    t * (0.31938153 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))))
  return 1 - (Math.exp(-0.5 * x * x) / Math.sqrt(2 * Math.PI)) * poly
}
