import type { Coated, NewCoatings } from '../../api/register.ts'
import { Failure } from '../../core/failure.ts'
import { coatingTimes } from '../../core/register/coatingTimes.ts'
import { coatScreen } from '../../store/coatings.ts'
import { inTransaction } from '../../store/database/database.ts'
import { addScreenEvent, isTold } from '../../store/screenEvents.ts'
import { changeScreen, type Screen } from '../../store/screens.ts'
import type { Told } from '../http/route.ts'
import { expectShown } from '../people/expectShown.ts'
import type { Who } from '../people/peopleKeeper.ts'
import { dayText } from '../shop/days.ts'
import type { ShopService } from '../shop/shopService.ts'
import { keptUntilOf } from './actOnScreen.ts'
import { bucketIn, type ScreenThings, screenThings } from './screensTold.ts'

/**
 * Coats many screens at once, each for whoever it will be. What is not bare, torn or lost is named
 * and left as it is; sent again under the same key nothing is coated twice.
 *
 * @throws Failure 'not found' for a bucket that the shop does not have, 'wrong input' for times that
 * cannot be, 'conflict' for whom nobody has shown how to coat
 */
export async function coatMany(
  { store: { database }, now, changed }: ShopService,
  { key, screens, recipe, bucket, dryHours, goodDays, until }: NewCoatings,
  { who }: Readonly<{ who: Who }>,
): Promise<Told<Coated>> {
  const at = now()
  const personId = who.person?.id ?? null
  await expectShown(database, who, { act: 'coat', now: at })
  const things = await screenThings(database)
  const batchId = batchNamed(things, bucket)
  const asked = {
    ...(dryHours === undefined ? {} : { dryHours }),
    ...(goodDays === undefined ? {} : { goodDays }),
  }
  const { dryMs, goodUntilMs } = coatingTimes(at.getTime(), asked)
  const done: string[] = []
  const not: { tag: string; why: string }[] = []
  await inTransaction(database, async (inner) => {
    for (const [index, { tag, owner }] of screens.entries()) {
      const screen = things.screens.find((each) => each.tag === tag)
      const sentKey = `${key}-${index}`
      if (await isTold(inner, sentKey)) {
        done.push(tag)
        continue
      }
      const why = whyNot(screen, things)
      if (screen === undefined || why !== null) {
        not.push({ tag, why: why ?? '' })
        continue
      }
      const of = { screenId: screen.id, batchId, recipe }
      const times = { coatedAt: at, dryAt: new Date(dryMs), goodUntil: new Date(goodUntilMs) }
      await coatScreen(inner, { ...of, ...times }, { at })
      const kept = { ownerId: owner, keptUntil: keptUntilOf(until) }
      await changeScreen(inner, screen.id, kept)
      const event = { sentKey, screenId: screen.id, kind: 'state', state: 'coated' } as const
      const says = `coated ${recipe}`
      const told = { ...event, ...kept, says: says.slice(0, 120), personId, happenedAt: at }
      await addScreenEvent(inner, { event: told }, { at })
      done.push(tag)
    }
  })
  changed()
  return {
    kind: 'coated',
    coated: done,
    not,
    dryAt: new Date(dryMs).toISOString(),
    goodUntil: dayText(new Date(goodUntilMs)),
  }
}

function whyNot(screen: Screen | undefined, { coatings }: ScreenThings): string | null {
  if (screen === undefined) return 'the shop has no screen with this tag'
  if (screen.state === 'torn') return 'it is torn'
  if (screen.state === 'lost') return 'nobody finds it'
  if (coatings.some(({ screenId }) => screenId === screen.id))
    return 'it carries a coat: reclaim it first'
  return null
}

/** A bucket by id or name; left out: the newest that is open. */
function batchNamed(things: ScreenThings, bucket: string | undefined): string | null {
  const open = things.batches.filter(({ usedUpAt }) => usedUpAt === null)
  if (bucket === undefined) return open[0]?.id ?? null
  const found = open.find(({ id, name }) => {
    return id === bucket || name === bucket || bucketIn(things, id) === bucket
  })
  if (found !== undefined) return found.id
  const message =
    'There is no such open bucket in this shop: choose one, or mix a new one on Tests.'
  throw new Failure('not found', message, { field: 'bucket' })
}
