import { type Doubtful, density, lu } from '../../units/quantity.ts'
import { type Random, randomFrom } from './draws.testing.ts'
import { fogEstimate, groundEstimate, mediumEstimate } from './estimates.ts'
import type { Circumstances, Evidence } from './evidence.ts'
import { GRADES, type Grade } from './grades.ts'
import { takenInDay } from './jump.ts'
import { mediumPrior, PRIORS, WALK } from './priors.ts'
import { type Outlook, outlookOn } from './question.ts'
import { recommendedDose } from './recommend.ts'
import { type Belief, startBelief } from './state.ts'

/** What simulated terms showed. */
export type Terms = Readonly<{
  /** Of the 90 % ranges at the end of each week, how many held the truth; by what they are of. */
  covered: ReadonlyMap<string, Readonly<{ inside: number; all: number }>>
  /** Tenths of the chance of a good screen: how often it was said, its sum, how many came good. */
  said: readonly Readonly<{ times: number; chances: number; good: number }>[]
  /** Screens from the fifth week on, and how many were good at once by each way to a dose. */
  screens: number
  good: Readonly<Record<'belief' | 'chart' | 'truth', number>>
  readings: number
}>

const MEDIA = ['soft pencil', 'drawing ink', 'cut masking film'] as const
const FABRICS = ['90-48', '77-55'] as const
const WEDGE = { steps: 21, firstDensity: density(0.05), increment: density(0.15) }
const WEEKS = 14
const SHOP = { usualBaseDensity: density(0), secondsUnits: [] }

/**
 * Terms of 14 weeks in shops drawn from the priors: one strip at the start, every Monday a wedge
 * beside a screen, two screens a week at the recommended dose, two new buckets, and a lamp change
 * that moves the hold dose by 0.15 either way; slips of the pen as often as assumed.
 *
 * @param compare also what a wall chart made in the first week, and the truth itself, would set
 */
export function simulatedTerms({
  shops,
  seed,
  compare = false,
}: Readonly<{ shops: number; seed: number; compare?: boolean }>): Terms {
  const covered = new Map<string, { inside: number; all: number }>()
  const said = Array.from({ length: 10 }, () => ({ times: 0, chances: 0, good: 0 }))
  const good = { belief: 0, chart: 0, truth: 0 }
  let [screens, readings] = [0, 0]
  for (let number = 0; number < shops; number++) {
    const random = randomFrom(seed * 100_003 + number)
    const shop = drawShop(random)
    let belief = startBelief(SHOP)
    for (let week = 0; week < WEEKS; week++) {
      for (const dayOfWeek of [0, 3]) {
        shop.goOn(7 * week + dayOfWeek, week)
        const evidence = dayOfWeek === 0 ? [shop.wedge(week)] : []
        if (week === 0 && dayOfWeek === 0) evidence.push(shop.strip())
        const task = shop.task()
        const outlook = outlookOn(belief, { ...task.where, marks: [{ medium: task.medium }] })
        const { doseLu, chances } = recommendedDose(outlook)
        const grade = task.gradeAt(Math.log10(doseLu))
        const tenth = said[Math.min(9, Math.floor(10 * chances.good))]
        tenth.times++
        tenth.chances += chances.good
        tenth.good += grade === 'good' ? 1 : 0
        if (compare && week >= 4) {
          screens++
          const doses = {
            belief: doseLu,
            chart: shop.chart(task),
            truth: recommendedDose(task.truth).doseLu,
          }
          for (const way of ['belief', 'chart', 'truth'] as const) {
            if (task.gradeAt(Math.log10(doses[way])) === 'good') good[way]++
          }
        }
        const told = random.uniform() < 0.05 ? random.one(GRADES) : grade
        const marks = { medium: task.medium }
        evidence.push({ kind: 'outcome', marks, doseLu, grade: told, ...task.where })
        readings += evidence.length
        belief = takenInDay(belief, { day: 7 * week + dayOfWeek, readings: evidence }).belief
        if (compare && week === 0) shop.drawChart(belief)
      }
      const check = (name: string, [range, truth]: readonly [Doubtful, number]): void => {
        const count = covered.get(name) ?? { inside: 0, all: 0 }
        count.all++
        if (range.low < truth && truth < range.high) count.inside++
        covered.set(name, count)
      }
      for (const [name, pair] of shop.ranges(belief)) check(name, pair)
    }
  }
  return { covered, said, screens, good, readings }
}

type Where = Circumstances & Readonly<{ fabric: string; emulsion: string }>

type Task = Readonly<{
  medium: string
  where: Where
  gradeAt: (x: number) => Grade
  /** What somebody would know who knew the shop's true state, yet no screen and no film. */
  truth: Outlook
}>

type SimulatedShop = Readonly<{
  goOn: (day: number, week: number) => void
  wedge: (week: number) => Evidence
  strip: () => Evidence
  task: () => Task
  drawChart: (belief: Belief) => void
  chart: (task: Task) => number
  ranges: (belief: Belief) => readonly (readonly [string, readonly [Doubtful, number]])[]
}>

function drawShop(random: Random): SimulatedShop {
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
  const chart = new Map<string, number>()

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
        truth: {
          marks: 1,
          parts: [{ share: 1, gaussian: { mean: Float64Array.from(middle), cov } }],
        },
      }
    },
    drawChart: (belief) => {
      for (const fabric of FABRICS) {
        for (const medium of MEDIA) {
          const asked = {
            unit: 'lamp',
            emulsion: 'bucket 0',
            fabric,
            dyed: fabric === FABRICS[1],
            day,
          }
          const outlook = outlookOn(belief, { ...asked, marks: [{ medium }] })
          chart.set(`${medium} on ${fabric}`, recommendedDose(outlook).doseLu)
        }
      }
    },
    chart: ({ medium, where: { fabric } }) => chart.get(`${medium} on ${fabric}`) ?? 50,
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
