import type { Doubtful } from '../../units/quantity.ts'
import { density } from '../../units/quantity.ts'
import { type Random, randomFrom } from './draws.testing.ts'
import { outlookQuantile } from './estimates.ts'
import type { Circumstances, Evidence } from './evidence.ts'
import { GRADES, type Grade } from './grades.ts'
import { takenInDay } from './jump.ts'
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

const WEEKS = 14
const SHOP = { usualBaseDensity: density(0), secondsUnits: [] }

/**
 * Terms of 14 weeks: one strip at the start, every Monday a wedge beside a screen, two screens a
 * week at the recommended dose; what else happens is the shop's own.
 *
 * @param draw one shop
 * @param compare also what a wall chart made in the first week, and the truth itself, would set
 */
export function simulatedTerms({
  draw,
  shops,
  seed,
  compare = false,
}: Readonly<{
  draw: (random: Random) => SimulatedShop
  shops: number
  seed: number
  compare?: boolean
}>): Terms {
  const covered = new Map<string, { inside: number; all: number }>()
  const said = Array.from({ length: 10 }, () => ({ times: 0, chances: 0, good: 0 }))
  const good = { belief: 0, chart: 0, truth: 0 }
  let [screens, readings] = [0, 0]
  for (let number = 0; number < shops; number++) {
    const random = randomFrom(seed * 100_003 + number)
    const shop = draw(random)
    const chart = new Map<string, number>()
    let belief = startBelief(SHOP)
    const check = (
      name: string,
      { low, high }: Readonly<{ low: number; high: number }>,
      truth: number,
    ): void => {
      const count = covered.get(name) ?? { inside: 0, all: 0 }
      count.all++
      if (low < truth && truth < high) count.inside++
      covered.set(name, count)
    }
    for (let week = 0; week < WEEKS; week++) {
      for (const dayOfWeek of [0, 3]) {
        shop.goOn(7 * week + dayOfWeek, week)
        const evidence = dayOfWeek === 0 ? [shop.wedge(week)] : []
        if (week === 0 && dayOfWeek === 0) evidence.push(shop.strip())
        const task = shop.task()
        const outlook = outlookOn(belief, { ...task.where, marks: [{ medium: task.medium }] })
        const { doseLu, chances } = recommendedDose(outlook)
        const fog = (part: number): number => outlookQuantile(outlook, { at: 2, part })
        check('fog limit of the next film', { low: fog(0.05), high: fog(0.95) }, task.fog)
        const grade = task.gradeAt(Math.log10(doseLu))
        const tenth = said[Math.min(9, Math.floor(10 * chances.good))]
        tenth.times++
        tenth.chances += chances.good
        tenth.good += grade === 'good' ? 1 : 0
        if (compare && week >= 4) {
          screens++
          const doses = {
            belief: doseLu,
            chart: chart.get(kindOf(task)) ?? Number.NaN,
            truth: recommendedDose(task.truth).doseLu,
          }
          for (const way of ['belief', 'chart', 'truth'] as const) {
            if (task.gradeAt(Math.log10(doses[way])) === 'good') good[way]++
          }
        }
        const told = random.uniform() < shop.misread ? random.one(GRADES) : grade
        const marks = { medium: task.medium }
        evidence.push({ kind: 'outcome', marks, doseLu, grade: told, ...task.where })
        readings += evidence.length
        belief = takenInDay(belief, { day: 7 * week + dayOfWeek, readings: evidence }).belief
        if (!compare || week > 0) continue
        for (const kind of shop.kinds()) chart.set(kindOf(kind), doseFor(belief, kind))
      }
      for (const [name, [range, truth]] of shop.ranges(belief)) check(name, range, truth)
    }
  }
  return { covered, said, screens, good, readings }
}

const kindOf = ({ medium, where: { fabric } }: Pick<Task, 'medium' | 'where'>): string =>
  `${medium} on ${fabric}`

function doseFor(belief: Belief, { medium, where }: Pick<Task, 'medium' | 'where'>): number {
  return recommendedDose(outlookOn(belief, { ...where, marks: [{ medium }] })).doseLu
}

export type Where = Circumstances & Readonly<{ fabric: string; emulsion: string }>

/** A screen that somebody wants. */
export type Task = Readonly<{
  medium: string
  where: Where
  gradeAt: (x: number) => Grade
  /** log10 of the dose at which this very film fogs over on this very screen. */
  fog: number
  /** What somebody would know who knew the shop's true state, yet no screen and no film. */
  truth: Outlook
}>

/** A shop that only the simulation knows. */
export type SimulatedShop = Readonly<{
  /** How often the grade of a screen is put down at random. */
  misread: number
  goOn: (day: number, week: number) => void
  wedge: (week: number) => Evidence
  strip: () => Evidence
  task: () => Task
  /** Everything that a wall chart has a dose for. */
  kinds: () => readonly Readonly<{ medium: string; where: Where }>[]
  ranges: (belief: Belief) => readonly (readonly [string, readonly [Doubtful, number]])[]
}>
