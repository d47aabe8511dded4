import { density, lu } from '../../units/quantity.ts'
import type { Random } from './draws.testing.ts'
import { fogEstimate, groundEstimate, mediumEstimate } from './estimates.ts'
import { GRADES, type Grade } from './grades.ts'
import { mediumPrior, PRIORS, WALK } from './priors.ts'
import type { SimulatedShop, Where } from './terms.testing.ts'

const MEDIA = ['soft pencil', 'drawing ink', 'cut masking film'] as const
const FABRICS = ['90-48', '77-55'] as const
const WEDGE = { steps: 21, firstDensity: density(0.05), increment: density(0.15) }

/**
 * A shop drawn from the priors, with two new buckets in the term and a lamp change that moves the
 * hold dose by 0.15 either way; slips of the pen as often as assumed.
 */
export function shopAsBelieved(random: Random): SimulatedShop {
  const { normal, uniform, one } = random
  const draw = ({ mean, sd }: Readonly<{ mean: number; sd: number }>): number =>
    mean + sd * normal()
  const ground = draw(PRIORS.unit) + draw(PRIORS.recipe)
  const [skin, sound] = [draw(PRIORS.skin), draw(PRIORS.sound)]
  const fabrics = new Map([
    [FABRICS[0], draw(PRIORS.fabric)],
    [FABRICS[1], draw(PRIORS['dyed fabric'])],
  ] as [string, number][])
  const media = new Map(MEDIA.map((medium) => [medium as string, draw(mediumPrior(medium))]))
  const batches = [0, 1, 2].map(() => draw(PRIORS.batch))
  const buckets = [2 + Math.floor(4 * uniform()), 7 + Math.floor(4 * uniform())]
  const lampWeek = 4 + Math.floor(7 * uniform())
  let hold = draw(PRIORS.hold)
  let [day, hours, batch, lampChanged] = [0, 300 + 400 * uniform(), 0, false]

  const where = (screen: string): Where => {
    const fabric = one(FABRICS)
    const emulsion = `bucket ${batch}`
    return {
      unit: 'lamp',
      emulsion,
      fabric,
      dyed: fabric === FABRICS[1],
      screen,
      day,
      lampHours: hours,
    }
  }
  const totalOf = ({ fabric }: Where): number =>
    hold + ground + batches[batch] + (fabrics.get(fabric) ?? 0)
  // A screen keeps its draw while its name is in use: a wedge on its margin and the image share it.
  const screens = new Map<string, number>()
  const screenOf = ({ screen = '' }: Where): number => {
    const known = screens.get(screen) ?? draw(PRIORS.screen)
    screens.set(screen, known)
    return known
  }
  let monday: Where | null = null
  const thresholds = (place: Where, medium: string): readonly [number, number, number] => {
    const own = totalOf(place) + screenOf(place)
    return [own, own + sound, own - skin + (media.get(medium) ?? 0) + draw(PRIORS.film)]
  }
  return {
    misread: 0.05,
    goOn: (today, week) => {
      const burned = 4 + 4 * uniform()
      hold += Math.sqrt(WALK.perDay * (today - day) + WALK.perLampHour * burned) * normal()
      ;[day, hours] = [today, hours + burned]
      batch = buckets.filter((from) => week >= from).length
      if (week < lampWeek || lampChanged) return
      ;[hours, lampChanged] = [burned, true]
      hold += uniform() < 0.5 ? 0.15 : -0.15
    },
    wedge: (week) => {
      monday = where(`week ${week}`)
      const own = totalOf(monday) + screenOf(monday)
      const doseLu = lu(60)
      const passed = (z: number): number => {
        const mu = (Math.log10(doseLu) - WEDGE.firstDensity - z) / WEDGE.increment + 1
        return Math.max(0, Math.min(WEDGE.steps, Math.floor(mu + 0.5 * normal())))
      }
      const firstClearStep = passed(own - skin) + 1
      return {
        kind: 'wedge',
        doseLu,
        wedge: WEDGE,
        lastSolidStep: passed(own),
        firstClearStep,
        ...monday,
      }
    },
    strip: () => {
      const medium = MEDIA[1]
      const place = where('strip')
      const z = thresholds(place, medium)
      const bands = [15, 21, 30, 42, 60, 85, 120].map((dose) => {
        const grade = gradeOf(random, { x: Math.log10(dose), z })
        return { doseLu: lu(dose), grade: uniform() < 0.02 ? one(GRADES) : grade }
      })
      return { kind: 'strip', marks: { medium }, bands, ...place }
    },
    task: () => {
      const place = monday ?? where(`day ${day}`)
      monday = null
      const medium = one(MEDIA)
      const z = thresholds(place, medium)
      const total = totalOf(place)
      const screenVariance = PRIORS.screen.sd ** 2
      const cov = new Float64Array(9).fill(screenVariance)
      cov[8] += PRIORS.film.sd ** 2
      const middle = [total, total + sound, total - skin + (media.get(medium) ?? 0)]
      return {
        medium,
        where: place,
        gradeAt: (x) => gradeOf(random, { x, z }),
        fog: z[2],
        truth: {
          marks: 1,
          parts: [{ share: 1, gaussian: { mean: Float64Array.from(middle), cov } }],
        },
      }
    },
    kinds: () =>
      FABRICS.flatMap((fabric) => {
        const place = { ...where(''), fabric, dyed: fabric === FABRICS[1], screen: undefined }
        return MEDIA.map((medium) => ({ medium, where: place }))
      }),
    ranges: (belief) => {
      const place = { ...where(''), screen: undefined }
      const total = totalOf(place)
      const { gelDoseLu, holdDoseLu, soundDoseLu } = groundEstimate(belief, place)
      return [
        ['skin', [gelDoseLu, 10 ** (total - skin)]],
        ['hold', [holdDoseLu, 10 ** total]],
        ['sound', [soundDoseLu, 10 ** (total + sound)]],
        ...MEDIA.flatMap((medium) => {
          const own = media.get(medium) ?? 0
          const fog = fogEstimate(belief, { ...place, marks: { medium } })
          return [
            ['fog limit', [fog, 10 ** (total - skin + own)]],
            ['medium', [mediumEstimate(belief, medium), own]],
          ] as const
        }),
      ]
    },
  }
}

/** How a screen comes out: the ground and the marks each where an eye draws its line that day. */
function gradeOf(
  { normal }: Random,
  { x, z: [hold, sound, fog] }: Readonly<{ x: number; z: readonly number[] }>,
): Grade {
  const marks = x - fog + 0.04 * normal()
  if (x < hold + 0.03 * normal()) return 'washed off'
  if (marks > 0.1) return 'filled'
  if (marks > 0) return 'filling'
  return x > sound + 0.03 * normal() ? 'good' : 'soft'
}
