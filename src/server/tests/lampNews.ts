import { isoOfDay } from '../../workflow/calendarDay.ts'
import { dayName } from '../../workflow/papers/dayWords.ts'
import { type Changed, lampChanged } from '../../workflow/testsChanged.ts'
import { dayOf } from '../shop/days.ts'
import { nextTest } from './nextTest.ts'
import { type Then, withLampThen } from './then.ts'

/** Something that is new in the room, since when, and what it did. */
export type News = Readonly<{ day: number; changed: Changed }>

/**
 * A lamp that is not the unit's first: that nothing was read under it yet and which test tells most,
 * or what the readings since say that it wants. Null where that is no news any more.
 */
export async function lampNews(
  then: Then,
  { newsDays }: Readonly<{ newsDays: number }>,
): Promise<News | null> {
  const { records, setUp, belief, day, isNow } = then
  const { unit } = setUp.exposure
  const own = records.lamps.filter((lamp) => {
    return lamp.unitId === unit.id && dayOf(lamp.fittedAt) <= day
  })
  const lamp = own.at(-1)
  if (lamp === undefined || own.length === 1) return null
  const fitted = dayOf(lamp.fittedAt)
  if (fitted <= day - newsDays) return null
  const since = records.taught.flatMap(({ whole: { reading } }) => {
    const on = dayOf(reading.takenAt)
    const isUnder =
      reading.unitId === unit.id &&
      reading.struckAt === null &&
      reading.createdAt > lamp.createdAt &&
      on >= fitted &&
      on <= day
    return isUnder ? [reading.kind] : []
  })
  const when = dayName(isoOfDay(fitted))
  if (since.length === 0) {
    if (!isNow) return null
    const test =
      nextTest(then).kind === 'wedge'
        ? 'a wedge on the margin of the next screen tells most'
        : 'a test strip tells most'
    const sentence = `It was fitted on ${when} and nothing has been read under it, so every dose is in doubt: ${test}.`
    return { day: fitted, changed: { headline: 'The lamp is new.', sentence } }
  }
  const before = await records.believed.onEvening(fitted - 1)
  const changed = lampChanged(
    { belief: before, exposure: withLampThen(setUp, before).exposure, day: fitted - 1 },
    { belief, exposure: setUp.exposure, day },
    { since: when, kinds: since },
  )
  return { day: fitted, changed }
}
