import type { FeltDry, NewDry } from '../../api/register.ts'
import { allCoatings, changeCoating } from '../../store/coatings.ts'
import { type Database, inTransaction } from '../../store/database/database.ts'
import { addScreenEvent, isTold } from '../../store/screenEvents.ts'
import { dryingMinutes } from '../diagnosis/troubleEvidence.ts'
import type { Told } from '../http/route.ts'
import type { ShopService } from '../shop/shopService.ts'
import { isToFeel, screenThings } from './screensTold.ts'

const HALF_HOUR_MIN = 30
/** Fewer say little of a cabinet. Judged. */
const FEWEST = 3

/**
 * Somebody felt that screens are dry: from then on they can be exposed, and how long they took counts
 * for the cabinet, where the coat is fresh. Told twice, or of a screen that was felt dry before, it changes nothing.
 */
export async function noteDry(
  { store: { database }, now, changed }: ShopService,
  { key, tags }: NewDry,
  { personId }: Readonly<{ personId: string | null }>,
): Promise<Told<FeltDry>> {
  const at = now()
  const things = await screenThings(database)
  const dry: string[] = []
  const not: { tag: string; why: string }[] = []
  await inTransaction(database, async (inner) => {
    for (const [index, tag] of [...new Set(tags)].entries()) {
      const screen = things.screens.find((each) => each.tag === tag)
      const coat = things.coatings.find(({ screenId }) => screenId === screen?.id)
      const sentKey = `${key}-${index}`
      if (screen === undefined) not.push({ tag, why: 'the shop has no screen with this tag' })
      else if (coat === undefined || screen.state !== 'coated')
        not.push({ tag, why: 'no fresh coat is on it' })
      else {
        dry.push(tag)
        if (coat.dryNotedAt !== null || (await isTold(inner, sentKey))) continue
        await changeCoating(inner, coat.id, {
          dryAt: at,
          ...(isToFeel(coat, at) ? { dryNotedAt: at } : {}),
        })
        const event = { sentKey, screenId: screen.id, kind: 'note', says: 'felt dry' } as const
        await addScreenEvent(inner, { event: { ...event, personId, happenedAt: at } }, { at })
      }
    }
  })
  changed()
  return { kind: 'felt dry', dry, not }
}

/** How long coats take to dry in this room, in half hours; null while few were felt. */
export async function dryingHere(
  database: Database,
): Promise<Readonly<{ hours: number; of: number }> | null> {
  const took = dryingMinutes(await allCoatings(database)).toSorted((a, b) => a - b)
  const middle = took[Math.floor(took.length / 2)]
  if (middle === undefined || took.length < FEWEST) return null
  return { hours: Math.max(0.5, Math.ceil(middle / HALF_HOUR_MIN) / 2), of: took.length }
}
