import type { Tests } from '../../api/tests.ts'
import { type Drift, watchDrift } from '../../core/calibration/drift/watch.ts'
import type { ThingKind } from '../../core/calibration/drift/witnesses.ts'
import { isoOfDay } from '../../workflow/calendarDay.ts'
import { beliefShop } from '../../workflow/lightFirstDose.ts'
import { countsOf } from '../../workflow/lightSetup.ts'
import { dayName } from '../../workflow/papers/dayWords.ts'
import { doseWords } from '../../workflow/readingWords.ts'
import type { Told } from '../http/route.ts'
import { dayOf } from '../shop/evidence.ts'
import { fabricName } from '../shop/lightThings.ts'
import { bucketName } from '../shop/setUpAsked.ts'
import type { ShopRecords } from '../shop/shopRecords.ts'
import type { Then } from './then.ts'

type Changes = Told<Pick<Tests, 'alarms' | 'changed'>>

/** Where nobody has accepted anything, what is older is not looked at. */
const LOOKED_AT_DAYS = 183
/** A change is news for so long. */
const NEWS_DAYS = 30

/** What is not as it was, and the newest change in words. */
export async function changesOf(then: Then): Promise<Changes> {
  const { alarms: found } = await driftOf(then)
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
  const [newest] = alarms
  const changed =
    newest === undefined ? newThing(then) : { headline: newest.headline, sentence: newest.sentence }
  return { alarms, changed }
}

async function driftOf({ records, setUp, day, isNow }: Then): Promise<Drift> {
  const { believed, reference, taught, light } = records
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
    },
    reference: from === null ? undefined : { belief: await believed.onEvening(from), day: from },
    until: isNow ? undefined : day,
    days: believed.days.map((note) => ({ ...note, belief: records.belief })),
  })
}

function thingName(records: ShopRecords, kind: ThingKind, id: string): string {
  const { units, batches, fabrics } = records
  switch (kind) {
    case 'unit':
      return units.find((unit) => unit.id === id)?.name ?? 'the lamp'
    case 'batch': {
      const batch = batches.find((each) => each.id === id)
      return batch === undefined ? 'the bucket' : bucketName(records, batch)
    }
    case 'fabric': {
      const fabric = fabrics.find((each) => each.id === id)
      return fabric === undefined ? 'the fabric' : fabricName(fabric)
    }
  }
}

/** A lamp or a bucket that is new and of which nothing was read yet. */
function newThing({ records, setUp, day, isNow }: Then): Changes['changed'] {
  if (!isNow) return null
  const { exposure, batch } = setUp
  const lamp = records.lamps.findLast(({ unitId }) => unitId === exposure.unit.id)
  const isFirst = records.lamps.find(({ unitId }) => unitId === exposure.unit.id) === lamp
  if (lamp !== undefined && !isFirst) {
    const fitted = dayOf(lamp.fittedAt)
    const since = dayName(isoOfDay(fitted))
    const read = records.taught.some(
      ({ whole: { reading } }) =>
        reading.unitId === lamp.unitId &&
        reading.struckAt === null &&
        reading.createdAt > lamp.createdAt &&
        dayOf(reading.takenAt) >= fitted,
    )
    if (!read && fitted > day - NEWS_DAYS) {
      const sentence = `It was fitted on ${since}, and nothing has been read under it: doses are wider guesses until a wedge or a strip tells.`
      return { headline: 'The lamp is new.', sentence }
    }
  }
  if (batch === null) return null
  const mixed = dayOf(batch.mixedAt)
  const read = records.taught.some(({ whole: { reading } }) => {
    return reading.batchId === batch.id && reading.struckAt === null
  })
  const hasOlder = records.batches.some(
    ({ emulsionId, mixedAt }) => emulsionId === batch.emulsionId && mixedAt < batch.mixedAt,
  )
  if (read || !hasOlder || mixed <= day - NEWS_DAYS) return null
  const sentence = `It was mixed on ${dayName(isoOfDay(mixed))}, and nothing of it has been read: buckets differ by a third of a stop at most, as a rule.`
  return { headline: 'The bucket is new.', sentence }
}
