import {
  DEMO_TRUTH,
  type DemoBucket,
  type DemoGrade,
  type DemoWedge,
  drawnThresholds,
  gradeTold,
  type Luck,
  luckFrom,
  type Thresholds,
  trueThresholds,
  wandered,
  wedgeRead,
} from './historyTruth.ts'
import { DEMO_SHOP } from './shop.ts'

/** One use of a screen: coated, exposed, reclaimed. */
export type DemoCoating = Readonly<{
  screen: string
  bucket: DemoBucket
  coatedDaysAgo: number
  removedDaysAgo: number
}>

/** What somebody told of an exposure, doses as on the big lamp's counter. */
export type DemoReading = Readonly<{
  daysAgo: number
  person: string
  screen: string
  fabric: string
  bucket: DemoBucket
  lampHours: number
  struck?: Readonly<{ daysAgo: number; reason: string }>
}> &
  (
    | Readonly<{
        kind: 'wedge'
        doseCounts: number
        wedge: DemoWedge
        lastSolidStep: number
        firstClearStep: number
      }>
    | Readonly<{
        kind: 'strip'
        medium: string
        base: string
        bands: readonly Readonly<{ doseCounts: number; grade: DemoGrade }>[]
      }>
    | Readonly<{
        kind: 'outcome'
        medium: string
        base: string
        doseCounts: number
        grade: DemoGrade
      }>
  )

export type DemoHistory = Readonly<{
  coatings: readonly DemoCoating[]
  readings: readonly DemoReading[]
  /** How far the hold dose has wandered by today, log10; nobody knows it. */
  drifted: number
}>

const SEED = 1868
const WEEKS = 16
const FIRST_DAY = 7 * WEEKS
/** The open bucket was mixed so many days ago, as the shop's list has it. */
const NEW_BUCKET = DEMO_SHOP.emulsions[0]?.mixedDaysAgo ?? 0
const HOURS_PER_DAY = 0.9

const USUAL_WEDGE: DemoWedge = { steps: 21, firstDensity: 0.05, increment: 0.15 }
/** What the wedge is exposed with, every Monday. */
const WEDGE_COUNTS = 60
const LAPSE = { strip: 0.02, outcome: 0.05 }
const CLEAR = 'clear polyester'

/** Who exposes what, on which screen, on the days of a week. */
const WEEK: readonly Readonly<{ day: number; screen: string; fabric: string }>[] = [
  { day: 0, screen: '14', fabric: '90-48 yellow' },
  { day: 1, screen: '16', fabric: '90-48 yellow' },
  { day: 2, screen: '11', fabric: '90-48' },
  { day: 2, screen: '21', fabric: '120-34 yellow' },
  { day: 3, screen: '14', fabric: '90-48 yellow' },
  { day: 3, screen: '7', fabric: '77-55' },
  { day: 4, screen: '16', fabric: '90-48 yellow' },
]

/** How many screens were told of in each medium, and what people set for it by habit. */
const SCREENS: readonly Readonly<{ medium: string; times: number; counts: number }>[] = [
  { medium: 'soft pencil', times: 11, counts: 43 },
  { medium: 'fine pigment pen', times: 6, counts: 43 },
  { medium: 'drawing ink', times: 23, counts: 58 },
  { medium: 'grease marker', times: 2, counts: 55 },
  { medium: 'cut masking film', times: 31, counts: 74 },
]
/** Strips, in the week they were made in, on that week's Tuesday. */
const STRIPS: readonly Readonly<{ week: number; medium: string; middle: number }>[] = [
  { week: 0, medium: 'soft pencil', middle: 45 },
  { week: 1, medium: 'cut masking film', middle: 85 },
  { week: 2, medium: 'fine pigment pen', middle: 45 },
  { week: 6, medium: 'cut masking film', middle: 100 },
  { week: 10, medium: 'cut masking film', middle: 110 },
  { week: 13, medium: 'soft pencil', middle: 45 },
]
const BANDS = 7
const RATIO = 1.25
/** A Monday on which somebody counted the wedge from its dark end. */
const MISREAD_WEEK = 9

/**
 * Sixteen weeks of the demo shop up to today, in whole days before it: every Monday a wedge on the
 * margin of a screen, strips, and how 73 screens came out. What was set is made up; how it came out
 * follows from the shop's hidden truth by seeded chance. Demo.
 */
export function demoHistory(seed: number = SEED): DemoHistory {
  const luck = luckFrom(seed)
  const tasks = shuffled(
    SCREENS.flatMap(({ medium, times, counts }) =>
      Array.from({ length: times }, () => ({ medium, counts })),
    ),
    luck,
  )
  const all = tasks.length
  const free = WEEKS * WEEK.length - STRIPS.length
  const coatings: DemoCoating[] = []
  const readings: DemoReading[] = []
  let [drifted, slot] = [0, 0]
  for (let week = 0; week < WEEKS; week++) {
    for (const place of WEEK) {
      const daysAgo = FIRST_DAY - 7 * week - place.day - 1
      if (place.day > 0) drifted += wandered(luck, { days: 1, lampHours: HOURS_PER_DAY })
      const bucket: DemoBucket = daysAgo > NEW_BUCKET ? 'old' : 'open'
      const strip = place.day === 1 ? STRIPS.find((each) => each.week === week) : undefined
      slot += strip === undefined ? 1 : 0
      const due = Math.floor((slot * all) / free) > Math.floor(((slot - 1) * all) / free)
      const task = strip === undefined && due ? tasks.pop() : undefined
      const isMonday = place.day === 0
      if (strip === undefined && task === undefined && !isMonday) continue
      const screen = DEMO_TRUTH.screenSd * luck.normal()
      const common = {
        daysAgo,
        person: DEMO_SHOP.people[Math.floor(luck.random.between(0, 4))]?.name ?? '',
        screen: place.screen,
        fabric: place.fabric,
        bucket,
        lampHours: Number((DEMO_SHOP.unit.lampHours - HOURS_PER_DAY * daysAgo).toFixed(1)),
      }
      coatings.push({
        screen: place.screen,
        bucket,
        coatedDaysAgo: daysAgo + 1,
        removedDaysAgo: daysAgo - 1,
      })
      const thresholds = (medium?: string, base?: string): Thresholds =>
        drawnThresholds(trueThresholds({ ...common, medium, base, drifted }), {
          screen,
          film: DEMO_TRUTH.filmSd * luck.normal(),
        })
      if (isMonday) readings.push(...mondaysWedge(luck, { week, common, of: thresholds() }))
      if (strip !== undefined) {
        const base = baseFor(strip.medium)
        const of = thresholds(strip.medium, base)
        readings.push({
          ...common,
          kind: 'strip',
          medium: strip.medium,
          base,
          bands: bands(luck, { ...strip, of }),
        })
      }
      if (task !== undefined) {
        const { medium } = task
        const base = baseFor(medium)
        const doseCounts = Math.round(task.counts * 10 ** (0.05 * luck.normal()))
        const x = Math.log10(doseCounts / DEMO_SHOP.unit.countsPerLu)
        const grade = gradeTold(luck, { x, of: thresholds(medium, base), lapse: LAPSE.outcome })
        readings.push({ ...common, kind: 'outcome', medium, base, doseCounts, grade })
      }
    }
  }
  return { coatings, readings, drifted }
}

type Common = Omit<DemoReading, 'kind'>

function mondaysWedge(
  luck: Luck,
  { week, common, of }: Readonly<{ week: number; common: Common; of: Thresholds }>,
): readonly DemoReading[] {
  const wedge = USUAL_WEDGE
  const x = Math.log10(WEDGE_COUNTS / DEMO_SHOP.unit.countsPerLu)
  const read = wedgeRead(luck, { x, of, wedge })
  const right: DemoReading = { ...common, kind: 'wedge', doseCounts: WEDGE_COUNTS, wedge, ...read }
  if (week !== MISREAD_WEEK) return [right]
  const lastSolidStep = wedge.steps + 1 - read.lastSolidStep
  const wrong = { ...right, lastSolidStep, firstClearStep: lastSolidStep + 2 }
  const struck = { daysAgo: common.daysAgo, reason: 'counted from the dark end' }
  return [{ ...wrong, struck }, right]
}

function bands(
  luck: Luck,
  { middle, of }: Readonly<{ middle: number; of: Thresholds }>,
): readonly Readonly<{ doseCounts: number; grade: DemoGrade }>[] {
  return Array.from({ length: BANDS }, (_, at) => {
    const doseCounts = Math.round(middle * RATIO ** (at - (BANDS - 1) / 2))
    const x = Math.log10(doseCounts / DEMO_SHOP.unit.countsPerLu)
    return { doseCounts, grade: gradeTold(luck, { x, of, lapse: LAPSE.strip }) }
  })
}

function baseFor(medium: string): string {
  return medium === 'cut masking film' ? CLEAR : DEMO_SHOP.usualBase
}

function shuffled<Item>(items: readonly Item[], { random }: Luck): Item[] {
  const all = [...items]
  for (let at = all.length - 1; at > 0; at--) {
    const other = Math.floor(random.share() * (at + 1))
    const [one, two] = [all[at], all[other]] as [Item, Item]
    all[at] = two
    all[other] = one
  }
  return all
}
