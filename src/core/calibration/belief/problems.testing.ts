import { density, lu } from '../../units/quantity.ts'
import { randomFrom } from './draws.testing.ts'
import type { Circumstances, Evidence } from './evidence.ts'
import { GRADES, type Grade } from './grades.ts'
import { mediumPrior, PRIORS } from './priors.ts'

/** A new shop's first two months, and what is true of it. */
export type Problem = Readonly<{
  evidence: readonly Evidence[]
  /** The set-up of the newest evidence. */
  where: Circumstances
  media: readonly string[]
  /** log10 of the dose on the counter: hold and skin of that set-up, fog limit of each medium. */
  truth: Readonly<{ hold: number; skin: number; fog: readonly number[] }>
  /** How a screen exposed by the counter at 10^x comes out, on a new screen and film. */
  gradeAt: (x: number, medium: number) => Grade
}>

const WEDGE = { steps: 21, firstDensity: density(0.05), increment: density(0.15) }
const MEDIA = ['soft pencil', 'drawing ink', 'laser toner'] as const
const USUAL_LU = [43, 60, 80] as const

/**
 * Four wedges, two strips of seven bands and six screens in a shop drawn from the priors.
 *
 * @param scale log10 of how much the counter shows for one light unit
 * @param kinds what of that is told
 */
export function problemOf(
  seed: number,
  {
    scale = 0,
    kinds = ['wedge', 'strip', 'outcome'],
  }: Readonly<{ scale?: number; kinds?: readonly Evidence['kind'][] }> = {},
): Problem {
  const { normal, uniform, one } = randomFrom(seed)
  const draw = ({ mean, sd }: Readonly<{ mean: number; sd: number }>): number =>
    mean + sd * normal()
  const ground =
    draw(PRIORS.hold) + draw(PRIORS.unit) + draw(PRIORS.fabric) + draw(PRIORS.recipe) + scale
  const batches = [draw(PRIORS.batch), draw(PRIORS.batch)]
  const [skin, sound] = [draw(PRIORS.skin), draw(PRIORS.sound)]
  const media = MEDIA.map((medium) => draw(mediumPrior(medium)))
  const thresholds = (batch: number, medium: number): readonly [number, number, number] => {
    const hold = ground + batches[batch] + draw(PRIORS.screen)
    return [hold, hold + sound, hold - skin + media[medium] + draw(PRIORS.film)]
  }
  const graded = (x: number, z: readonly [number, number, number], lapse: number): Grade => {
    const [eye, image] = [0.03 * normal(), 0.04 * normal()]
    if (uniform() < lapse) return one(GRADES)
    if (x < z[0] + eye) return 'washed off'
    if (x > z[2] + 0.1 + image) return 'filled'
    if (x > z[2] + image) return 'filling'
    return x > z[1] + eye ? 'good' : 'soft'
  }
  const all = Array.from({ length: 12 }, (_, at): Evidence => {
    const batch = at < 8 ? 0 : 1
    const where = { unit: 'old lamp', emulsion: `bucket ${batch}`, fabric: '90-48', day: 5 * at }
    const medium = at % MEDIA.length
    const marks = { medium: MEDIA[medium] }
    if (at % 3 === 0) {
      const own = ground + batches[batch] + draw(PRIORS.screen)
      const x = Math.log10(60) + scale
      const passed = (z: number): number => {
        const mu = (x - WEDGE.firstDensity - z) / WEDGE.increment + 1
        return Math.max(0, Math.min(WEDGE.steps, Math.floor(mu + 0.5 * normal())))
      }
      const [lastSolidStep, firstClearStep] = [passed(own), passed(own - skin) + 1]
      const doseLu = lu(10 ** x)
      return { kind: 'wedge', doseLu, wedge: WEDGE, lastSolidStep, firstClearStep, ...where }
    }
    const z = thresholds(batch, medium)
    if (at === 1 || at === 8) {
      const bands = [15, 21, 30, 42, 60, 85, 120].map((dose) => {
        const x = Math.log10(dose) + scale
        return { doseLu: lu(10 ** x), grade: graded(x, z, 0.02) }
      })
      return { kind: 'strip', marks, bands, ...where }
    }
    const x = Math.log10(USUAL_LU[medium]) + 0.05 * normal() + scale
    return { kind: 'outcome', marks, doseLu: lu(10 ** x), grade: graded(x, z, 0.05), ...where }
  })
  const hold = ground + batches[1]
  return {
    evidence: all.filter(({ kind }) => kinds.includes(kind)),
    where: { unit: 'old lamp', emulsion: 'bucket 1', fabric: '90-48', day: 60 },
    media: MEDIA,
    truth: { hold, skin: hold - skin, fog: media.map((own) => hold - skin + own) },
    gradeAt: (x, medium) => graded(x, thresholds(1, medium), 0),
  }
}
