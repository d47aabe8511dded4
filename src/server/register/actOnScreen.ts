import type { ScreenAct } from '../../api/register.ts'
import { Failure } from '../../core/failure.ts'
import { slotText } from '../../core/register/rack.ts'
import { endClocksOf } from '../../store/clocks.ts'
import { coatingOn, reclaimScreen } from '../../store/coatings.ts'
import { type Database, inTransaction } from '../../store/database/database.ts'
import { people } from '../../store/people.ts'
import {
  addScreenEvent,
  isTold,
  type ScreenEvent,
  stateBeforeLost,
} from '../../store/screenEvents.ts'
import { addScreen, changeScreen, type Screen } from '../../store/screens.ts'
import { endOfDay } from '../shop/days.ts'

/** A moment that the device's clock told: no later than ours by more than this. */
const CLOCKS_APART_MS = 5 * 60_000

type Acting = Readonly<{ act: ScreenAct; personId: string | null; now: Date }>
type Happened = Partial<Omit<ScreenEvent, 'id' | 'createdAt' | 'screenId' | 'kind'>> &
  Pick<ScreenEvent, 'kind'>

/**
 * Takes down what happened to a screen, and what follows from it; told twice it is told once.
 *
 * @throws Failure 'not found' for a person or fabric that the shop does not have, 'conflict' for
 * what the screen's state does not let happen
 */
export async function actOnScreen(
  database: Database,
  screen: Screen,
  { act, personId, now }: Acting,
): Promise<void> {
  await inTransaction(database, async (inner) => {
    if (await isTold(inner, act.key)) return
    const happenedAt = momentTold(act.happenedAt, now)
    const tell = async (event: Happened, changes: Parameters<typeof changeScreen>[2] = {}) => {
      const own = { sentKey: act.key, screenId: screen.id, personId, happenedAt, ...event }
      await addScreenEvent(inner, { event: own, changes }, { at: now })
    }
    switch (act.kind) {
      case 'state': {
        const coat = await coatingOn(inner, screen.id)
        if (coat === null && (act.to === 'exposed' || act.to === 'in print')) {
          const message = `Screen ${screen.tag} is bare: coat it first, then it can be exposed.`
          throw new Failure('conflict', message)
        }
        return tell({ kind: 'state', state: act.to, says: act.says ?? null }, { state: act.to })
      }
      case 'reclaimed': {
        if ((await coatingOn(inner, screen.id)) !== null) {
          await reclaimScreen(inner, screen.id, { at: now })
        }
        await endClocksOf(inner, { screenId: screen.id }, { at: now })
        const says = act.haze ? 'reclaimed, a ghost stayed' : 'reclaimed'
        const clean = { state: 'clean', ownerId: null, keptUntil: null, haze: act.haze } as const
        return tell({ kind: 'state', state: 'clean', says }, clean)
      }
      case 'lost':
        return tell({ kind: 'state', state: 'lost', says: act.says ?? null }, { state: 'lost' })
      case 'found': {
        const state = await stateFound(inner, screen)
        const rackSlot = act.slot === undefined ? screen.rackSlot : slotText(act.slot)
        return tell({ kind: 'state', state, rackSlot, says: 'found again' }, { state, rackSlot })
      }
      case 'owner': {
        await expectPerson(inner, act.owner)
        const ownerId = act.owner
        const keptUntil = keptUntilOf(act.until) ?? (ownerId === null ? null : screen.keptUntil)
        return tell({ kind: 'owner', ownerId, keptUntil }, { ownerId, keptUntil })
      }
      case 'slot': {
        const rackSlot = act.slot === null ? null : slotText(act.slot)
        return tell({ kind: 'slot', rackSlot }, { rackSlot })
      }
      case 'tension': {
        const tensionNewtonPerCm = act.newtonPerCm
        const measured = { tensionNewtonPerCm, tensionMeasuredAt: happenedAt }
        return tell({ kind: 'tension', tensionNewtonPerCm }, measured)
      }
      case 'haze':
        return tell(
          { kind: 'haze', says: act.is ? 'a ghost stays in the fabric' : 'the ghost is gone' },
          { haze: act.is },
        )
      case 'note':
        return tell({ kind: 'note', says: act.says })
      case 'stretched':
        return stretched(inner, screen, { act, happenedAt, personId, now })
    }
  })
}

type Stretching = Readonly<{
  act: Extract<ScreenAct, { kind: 'stretched' }>
  happenedAt: Date
  personId: string | null
  now: Date
}>

/** A frame with new fabric is a new screen under its old tag; the old one keeps its history. */
async function stretched(
  inner: Database,
  screen: Screen,
  { act, happenedAt, personId, now }: Stretching,
): Promise<void> {
  const { tag, frameId, rackSlot, id } = screen
  if ((await coatingOn(inner, id)) !== null) await reclaimScreen(inner, id, { at: now })
  await changeScreen(inner, id, { retiredAt: now })
  const tensionNewtonPerCm = act.newtonPerCm ?? null
  const tensionMeasuredAt = tensionNewtonPerCm === null ? null : happenedAt
  const fresh = { tag, frameId, fabricId: act.fabric, state: 'clean', rackSlot } as const
  const made = await addScreen(
    inner,
    { ...fresh, tensionNewtonPerCm, tensionMeasuredAt },
    { at: now },
  )
  const came = { sentKey: act.key, screenId: made.id, kind: 'came', state: 'clean' } as const
  const event = { ...came, tensionNewtonPerCm, says: 'new fabric', personId, happenedAt }
  await addScreenEvent(inner, { event }, { at: now })
}

async function stateFound(inner: Database, { id, state }: Screen): Promise<Screen['state']> {
  if (state !== 'lost') return state
  const before = await stateBeforeLost(inner, { screenId: id })
  if (before !== null) return before
  return (await coatingOn(inner, id)) === null ? 'clean' : 'to reclaim'
}

/** To the end of that day. */
export function keptUntilOf(day: string | null | undefined): Date | null {
  return day === null || day === undefined ? null : endOfDay(day)
}

async function expectPerson(database: Database, id: string | null): Promise<void> {
  if (id === null || (await people(database)).some((person) => person.id === id)) return
  const message = 'There is no such person in this shop: choose one who is here.'
  throw new Failure('not found', message, { field: 'owner' })
}

function momentTold(told: string | undefined, now: Date): Date {
  const at = told === undefined ? now : new Date(told)
  if (at.getTime() > now.getTime() + CLOCKS_APART_MS) {
    const message = 'What happened is told for a time to come: set the clock of the device right.'
    throw new Failure('wrong input', message, { field: 'happenedAt' })
  }
  return at
}
