import type { Tests } from '../../api/tests.ts'
import { type Drift, watchDrift } from '../../core/calibration/drift/watch.ts'
import { isoOfDay } from '../../workflow/calendarDay.ts'
import { beliefShop } from '../../workflow/lightFirstDose.ts'
import { countsOf } from '../../workflow/lightSetup.ts'
import { dayName } from '../../workflow/papers/dayWords.ts'
import { doseWords } from '../../workflow/readingWords.ts'
import { bucketChanged } from '../../workflow/testsChanged.ts'
import type { Told } from '../http/route.ts'
import { dayOf } from '../shop/days.ts'
import { bucketOf, bucketsOf, coatedFrom } from '../shop/setUpAsked.ts'
import type { ShopService } from '../shop/shopService.ts'
import { lampNews, type News } from './lampNews.ts'
import type { Then } from './then.ts'
import { thingIsThere, thingName } from './thingName.ts'
import { uncrossed } from './uncrossed.ts'

type Changes = Told<Pick<Tests, 'alarms' | 'changed'>>

/** Where nobody has accepted anything, what is older is not looked at. */
const LOOKED_AT_DAYS = 183
/** A change is news for so long. */
const NEWS_DAYS = 30

/** What is not as it was, and the newest change in words. */
export async function changesOf(service: ShopService, then: Then): Promise<Changes> {
  const { unit } = then.setUp.exposure
  const { alarms: found } = await service.kept(`drift ${unit.id} ${then.day}`, () => driftOf(then))
  const alarms = found
    .toSorted((a, b) => b.day - a.day)
    .map(({ day, kind, headline, sentence, others, test }) => ({
      since: isoOfDay(day),
      cause: kind,
      headline,
      sentence,
      others,
      test,
    }))
  const [newest] = found.toSorted((a, b) => b.day - a.day)
  const news = (await newsOf(then)).filter(({ day }) => newest === undefined || day >= newest.day)
  const { headline, sentence } = news[0]?.changed ?? newest ?? {}
  const changed = headline === undefined || sentence === undefined ? null : { headline, sentence }
  return { alarms, changed }
}

/** What is new of the lamp and of the bucket, the newest first. */
async function newsOf(then: Then): Promise<readonly News[]> {
  const lamp = await lampNews(then, { newsDays: NEWS_DAYS })
  const bucket = bucketMoved(then)
  const news = [lamp, bucket].filter((each) => each !== null).toSorted((a, b) => b.day - a.day)
  if (news.length < 2) return news
  const apart = uncrossed(then).find(
    ({ kinds }) => kinds.includes('unit') && kinds.includes('batch'),
  )
  if (apart === undefined) return news
  return news.map(({ day, changed: { headline, sentence } }) => {
    return { day, changed: { headline, sentence: `${sentence} ${apart.sentence} ${apart.test}` } }
  })
}

async function driftOf({ records, setUp, day }: Then): Promise<Drift> {
  const { believed, reference, taught, light, saidOfDrift } = records
  const accepted = reference === null ? null : dayOf(reference.acceptedAt)
  const evidence = taught.flatMap((each) => each.evidence ?? [])
  const oldest = evidence.find(({ struckOut }) => struckOut !== true)?.day ?? day
  const from =
    accepted !== null && accepted <= day
      ? accepted
      : oldest < day - LOOKED_AT_DAYS
        ? day - LOOKED_AT_DAYS
        : null
  const counts = countsOf(setUp.exposure.unit)
  return watchDrift(evidence, {
    shop: beliefShop(light),
    words: {
      dayName: (on) => dayName(isoOfDay(on)),
      nameOf: (kind, name) => thingName(records, kind, name),
      dose: (doseLu) => doseWords(counts * doseLu),
      isThere: (kind, name) => thingIsThere(records, kind, name),
    },
    reference: from === null ? undefined : { belief: await believed.onEvening(from), day: from },
    until: day,
    days: believed.days,
    memory: saidOfDrift,
  })
}

/** What the newest bucket wants, beside the one before it. */
function bucketMoved(then: Then): News | null {
  const { records, setUp, belief, day } = then
  const { batch, exposure } = setUp
  const before = bucketsOf(records, batch).at(-2)
  if (batch === null || before === undefined) return null
  const mixed = dayOf(batch.mixedAt)
  if (mixed <= day - NEWS_DAYS || mixed > day) return null
  const since = dayName(isoOfDay(mixed))
  const isRead = records.taught.some(
    ({ whole: { reading } }) =>
      reading.batchId === batch.id && reading.struckAt === null && dayOf(reading.takenAt) <= day,
  )
  if (!isRead) {
    const sentence = `It was mixed on ${since}, and nothing of it has been read: buckets differ by a third of a stop at most, as a rule.`
    return { day: mixed, changed: { headline: 'The bucket is new.', sentence } }
  }
  const old = coatedFrom(exposure, bucketOf(records, before))
  const changed = bucketChanged(belief, exposure, { before: old, day, since })
  return changed === null ? null : { day: mixed, changed }
}
