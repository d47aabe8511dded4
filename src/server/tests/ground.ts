import type { Tests } from '../../api/tests.ts'
import { groundWitness } from '../../core/calibration/drift/witness.ts'
import type { Batch } from '../../store/emulsions.ts'
import { isoOfDay } from '../../workflow/calendarDay.ts'
import { countsOf } from '../../workflow/lightSetup.ts'
import { readingSays } from '../../workflow/readingWords.ts'
import { groundLine, groundOn, groundThread } from '../../workflow/testsGround.ts'
import type { Told } from '../http/route.ts'
import { dayOf } from '../shop/days.ts'
import { type Taught } from '../shop/evidence.ts'
import { bucketOf, bucketsOf, coatedFrom, type SetUp } from '../shop/setUpAsked.ts'
import { isOfSetUp } from './isOfSetUp.ts'
import type { Then } from './then.ts'

type Ground = Told<Tests['ground']>

/** Half a year, the width of a chart: what was believed before is looked up by its day. */
const DAYS_SHOWN = 183
const MOST_POINTS = 120
/** A reading that leaves more open than this, high over low, draws no thread. */
const VAGUE = 5

/** What hardens the ground of this set-up: now, as it moved, and what each reading says of it. */
export function groundOf(then: Then): Ground {
  const { records, belief, day, setUp } = then
  const buckets = bucketsOf(records, setUp.batch)
  const evenings = records.believed.evenings
    .filter((evening) => evening.day >= day - DAYS_SHOWN && evening.day < day)
    .map((evening) => ({ ...evening, setUp: filledOn(evening.day, then, buckets) }))
  const dose = groundOn(belief, setUp.exposure, { day })
  const { value, low, high } = dose
  const line = [...groundLine(evenings, { most: MOST_POINTS - 1 }), { day, value, low, high }]
  return {
    dose,
    days: line.map(({ day: on, ...rest }) => ({ on: isoOfDay(on), ...rest })),
    readings: records.taught.flatMap((taught) => threadOf(taught, then) ?? []),
    breaks: breaksOf(then, buckets),
  }
}

/** The set-up of a day: with the bucket that was the newest then. */
function filledOn(
  day: number,
  { records, setUp }: Then,
  buckets: readonly Batch[],
): SetUp['exposure'] {
  const batch = buckets.findLast(({ mixedAt }) => dayOf(mixedAt) <= day) ?? buckets[0] ?? null
  return coatedFrom(setUp.exposure, bucketOf(records, batch))
}

/** A reading of this fabric and emulsion under this unit as a thread of the chart. */
function threadOf(
  { whole: { reading }, evidence }: Taught,
  { records, belief, setUp, day }: Then,
): Ground['readings'][number] | null {
  const { unit } = setUp.exposure
  const on = dayOf(reading.takenAt)
  if (evidence === null || reading.struckAt !== null || !isOfSetUp(reading, setUp)) return null
  if (on < day - DAYS_SHOWN || on > day) return null
  const { saidOfGround } = records
  if (!saidOfGround.has(evidence)) saidOfGround.set(evidence, groundWitness(belief, evidence))
  const said = saidOfGround.get(evidence) ?? null
  if (said === null) return null
  const counts = countsOf(unit)
  const thread = groundThread(belief, said, { counts })
  if (thread.high > VAGUE * thread.low) return null
  const marks = records.media.find(({ id }) => id === reading.mediumId)?.name ?? 'a film'
  const says = readingSays(evidence, { marks, counts })
  return { id: reading.id, on: isoOfDay(on), says, ...thread }
}

/** Where the line is broken: a new lamp, a new bucket. */
function breaksOf({ records, setUp, day }: Then, buckets: readonly Batch[]): Ground['breaks'] {
  const fitted = records.lamps
    .filter(({ unitId }) => unitId === setUp.exposure.unit.id)
    .slice(1)
    .map(({ fittedAt }) => ({ on: dayOf(fittedAt), words: 'new lamp' }))
  const mixed = buckets.slice(1).map(({ mixedAt }) => ({ on: dayOf(mixedAt), words: 'new bucket' }))
  return [...fitted, ...mixed]
    .filter(({ on }) => on >= day - DAYS_SHOWN && on <= day)
    .sort((a, b) => a.on - b.on)
    .map(({ on, words }) => ({ on: isoOfDay(on), words }))
}
