import { density, lu } from '../../units/quantity.ts'
import { type Random, randomFrom } from '../belief/draws.testing.ts'
import type { Circumstances, Evidence } from '../belief/evidence.ts'
import type { Grade } from '../belief/grades.ts'
import { PRIORS, WALK } from '../belief/priors.ts'
import { type Drift, watchDrift } from './watch.ts'

/** What happens to a simulated shop, and from which week on after its reference. */
export type Change = Readonly<{
  what: 'nothing' | 'lamp' | 'bucket' | 'fabric' | 'slip' | 'damp day'
  week: number
  /** Of 0.15. */
  steps: number
}>

export type TermPlan = Readonly<{
  shops: number
  seed: number
  change: Change
  /** After the reference. */
  weeks: number
  /** Lamps, fabrics in use, taken in turn. */
  units?: number
  fabrics?: number
  /** The week from which on a new bucket is in use. */
  bucketWeek?: number | undefined
  wedgesAWeek?: number
  /** Whether the first clear step is written down too. */
  clearStep?: boolean
  screensAWeek?: number
  /** Whether hold doses wander by themselves. */
  walks?: boolean
  /** Weeks of wedges that the reference rests on. */
  before?: number
}>

const WEDGE = { steps: 21, firstDensity: density(0.05), increment: density(0.15) }
const SHOP = { usualBaseDensity: density(0), secondsUnits: [] }
const WORDS = {
  dayName: (day: number): string => `day ${day}`,
  nameOf: (_: string, name: string): string => name,
  dose: (doseLu: number): string => doseLu.toFixed(0),
}

/** The drift that is seen at the end of each simulated term, and its evidence. */
export function driftTerms(plan: TermPlan): readonly Readonly<{ drift: Drift; from: number }>[] {
  const { shops, seed, weeks, before = 6 } = plan
  return Array.from({ length: shops }, (_, number) => {
    const evidence = term(randomFrom(seed * 100_003 + number), plan)
    return {
      from: 7 * before,
      drift: watchDrift(evidence, { shop: SHOP, words: WORDS, until: 7 * (before + weeks) - 1 }),
    }
  })
}

/** Terms in which one lamp drifts by one step, in each of the first seven weeks, until eight weeks later. */
export function termsWithAStep(
  plan: Pick<TermPlan, 'shops' | 'seed' | 'clearStep'>,
): readonly ReturnType<typeof driftTerms>[] {
  return Array.from({ length: 7 }, (_, week) =>
    driftTerms({
      ...plan,
      seed: plan.seed * 100 + week,
      change: { what: 'lamp', week, steps: 1 },
      weeks: week + 8,
    }),
  )
}

function term(random: Random, plan: TermPlan): readonly Evidence[] {
  const { normal, uniform } = random
  const { change, weeks, before = 6, walks = false, bucketWeek } = plan
  const { units = 1, fabrics = 1, wedgesAWeek = 1, screensAWeek = 0, clearStep = true } = plan
  const draw = ({ mean, sd }: Readonly<{ mean: number; sd: number }>): number =>
    mean + sd * normal()
  const [base, skin, sound] = [draw(PRIORS.hold), draw(PRIORS.skin), draw(PRIORS.sound)]
  const lamps = Array.from({ length: units }, () => draw(PRIORS.unit))
  const cloths = Array.from({ length: fabrics }, () => draw(PRIORS.fabric))
  const batches = [draw(PRIORS.batch), draw(PRIORS.batch)]
  let wandered = 0
  const evidence: Evidence[] = []
  let turn = 0
  for (let week = 0; week < before + weeks; week++) {
    if (walks) wandered += Math.sqrt(WALK.perDay * 7) * normal()
    const changed = change.what !== 'nothing' && week - before >= change.week
    const isOn = week - before === change.week
    const shift = 0.15 * change.steps
    for (let each = 0; each < wedgesAWeek + screensAWeek; each++) {
      const [unit, fabric] = [turn % units, Math.floor(turn / units) % fabrics]
      turn++
      const batch = bucketWeek !== undefined && week - before >= bucketWeek ? 1 : 0
      let own = base + wandered + (lamps[unit] ?? 0) + (cloths[fabric] ?? 0) + (batches[batch] ?? 0)
      if (changed && change.what === 'lamp' && unit === 0) own += shift
      if (changed && change.what === 'bucket' && batch === 1) own += shift
      if (changed && change.what === 'fabric' && fabric === 0) own += shift
      if (isOn && change.what === 'damp day') own += shift
      if (isOn && change.what === 'slip' && each === 0) own += shift
      const where: Circumstances = {
        unit: `lamp ${unit}`,
        fabric: `fabric ${fabric}`,
        emulsion: `bucket ${batch}`,
        day: 7 * week,
      }
      own += draw(PRIORS.screen)
      if (each < wedgesAWeek) evidence.push(wedgeAt(random, { where, own, skin, clearStep }))
      else {
        const x = base + sound + 0.25 + 0.1 * (uniform() - 0.5)
        const from = own + 0.03 * normal()
        const grade: Grade = x < from ? 'washed off' : x < from + sound ? 'soft' : 'good'
        const marks = { medium: 'cut masking film' }
        evidence.push({ kind: 'outcome', marks, doseLu: lu(10 ** x), grade, ...where })
      }
    }
  }
  return evidence
}

function wedgeAt(
  { normal }: Random,
  {
    where,
    own,
    skin,
    clearStep,
  }: Readonly<{ where: Circumstances; own: number; skin: number; clearStep: boolean }>,
): Evidence {
  const doseLu = lu(60)
  const passed = (z: number): number => {
    const mu = (Math.log10(doseLu) - WEDGE.firstDensity - z) / WEDGE.increment + 1
    return Math.max(0, Math.min(WEDGE.steps, Math.floor(mu + 0.5 * normal())))
  }
  const firstClearStep = clearStep ? passed(own - skin) + 1 : undefined
  return {
    kind: 'wedge',
    doseLu,
    wedge: WEDGE,
    lastSolidStep: passed(own),
    firstClearStep,
    ...where,
  }
}
