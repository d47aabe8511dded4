import { type RunNews as NewsTold, type RunEventTold, runAbout } from '../../api/bench.ts'
import type { NewReading as ToldReading } from '../../api/tests.ts'
import { isFailure } from '../../core/failure.ts'
import { type RunEvent, type RunState, runState } from '../../core/runSheet/progress.ts'
import { roadOfRun } from '../../core/runSheet/roadOfRun.ts'
import { sec } from '../../core/units/quantity.ts'
import { exposureOf } from '../../store/exposures.ts'
import { filmOf } from '../../store/films.ts'
import type { NewReading } from '../../store/readings.ts'
import { type Run, type RunNews, runEvents, runOf, tellRun } from '../../store/runs.ts'
import { oursLess } from '../clocks/byOurClock.ts'
import { screenAfterRun } from '../register/afterRun.ts'
import type { ShopService } from '../shop/shopService.ts'
import { readingTold } from '../tests/readingTold.ts'
import { eventOf, stepsIn } from './runAnswer.ts'

/**
 * Takes down what a device tells, and what follows from it: the exposure's record, and at the sink
 * the wedge and how the screen came out as readings of that exposure. What it told before stays.
 *
 * @returns why a reading could not be taken down, in a sentence; null: nothing stood in the way
 * @throws Failure 'not found'
 */
export async function happened(
  service: ShopService,
  id: string,
  { events, ...sent }: NewsTold,
  { personId }: Readonly<{ personId: string | null }>,
): Promise<string | null> {
  const { database } = service.store
  const now = service.now()
  const run = await runOf(database, id)
  const known = await runEvents(database, { runId: id })
  const there = new Set(known.map(({ sentKey }) => sentKey))
  const fresh = byOurClock(
    events.filter(({ key }) => !there.has(key)),
    { oursMs: oursLess(sent, now), since: run.begunAt, now },
  )
  const all = [...known, ...fresh].map(eventOf)
  const state = runState(stepsIn(run), all)
  const readings = await readingsOf(service, { run, state, personId })
  const litMs = state.doneMs.get('lamp')
  const { setCount, readCount, litSec } = state
  const news = {
    events: fresh,
    lit:
      litMs === undefined
        ? null
        : {
            setCount,
            readCount,
            litSec: litSec === null ? null : sec(litSec),
            at: new Date(litMs),
          },
    wedge: readings.wedge,
    outcome: readings.outcome,
    road: await roadFor(service, { run, events: all }),
    endedAt: state.step === null || state.stopped !== null ? now : null,
  }
  const { taught, exposed } = await tellRun(database, id, news, { at: now })
  const { screenId } = (await exposureOf(database, run.exposureId)).exposure
  const after = { screenId, runId: id, state, personId, now }
  if ((await screenAfterRun(database, after)) || exposed) service.changed()
  else if (taught) service.changed('readings')
  return readings.notTaken
}

/** What it tells of its film's layer; null for a medium, or a film that is on no ticket. */
async function roadFor(
  { store: { database } }: ShopService,
  { run, events }: Readonly<{ run: Run; events: readonly RunEvent[] }>,
): Promise<RunNews['road']> {
  const { filmIds } = await exposureOf(database, run.exposureId)
  const [filmId] = filmIds
  const layerId = filmId === undefined ? null : (await filmOf(database, filmId)).layerId
  if (layerId === null) return null
  const told = roadOfRun(stepsIn(run), events)
  return {
    layerId,
    events: told.map(({ key, atMs, ...event }) => ({
      ...event,
      layerId,
      sentKey: key,
      happenedAt: new Date(atMs),
    })),
  }
}

/**
 * A device's clock may be anywhere: its moments are reckoned back from when it sent them. What it
 * tells in an order stays in that order.
 */
function byOurClock(
  events: readonly RunEventTold[],
  { oursMs, since, now }: Readonly<{ oursMs: number; since: Date; now: Date }>,
) {
  let lastMs = since.getTime() - 1
  return events.map(({ key, at, ...event }) => {
    lastMs = Math.max(lastMs + 1, Math.min(now.getTime(), Date.parse(at) + oursMs))
    return { ...event, sentKey: key, happenedAt: new Date(lastMs) }
  })
}

type Readings = Readonly<{
  wedge: NewReading | null
  outcome: NewReading | null
  notTaken: string | null
}>

const NONE: Readings = { wedge: null, outcome: null, notTaken: null }

/** Once a screen was looked at and its wedge read or left: what the shop learns of it. */
async function readingsOf(
  service: ShopService,
  { run, state, personId }: Readonly<{ run: Run; state: RunState; personId: string | null }>,
): Promise<Readings> {
  const wedgeAt = stepsIn(run).findLastIndex(({ name }) => name === 'wedge' || name === 'look')
  if (state.at <= wedgeAt) return NONE
  const { exposure, filmIds } = await exposureOf(service.store.database, run.exposureId)
  const about = runAbout.parse(run.about)
  const { from, place } = run.about as Readonly<{
    from: 'cold' | 'hot' | null
    place: string | null
  }>
  const [xMm, yMm] = place?.split(',').map(Number) ?? []
  const circumstances = {
    unit: exposure.unitId,
    ...(exposure.screenId === null ? {} : { screen: exposure.screenId }),
    ...(run.baseId === null ? {} : { base: run.baseId }),
    ...(from === null ? {} : { from }),
    doseLu: state.readCount ?? state.setCount ?? about.dose.value,
  }
  const [film] = filmIds
  const subject = film === undefined ? { medium: run.mediumId ?? '' } : { film }
  const lying = xMm === undefined || yMm === undefined ? {} : { place: { xMm, yMm } }
  const troubles: string[] = []
  const told = async (reading: ToldReading): Promise<NewReading | null> => {
    try {
      return await readingTold(service, reading, { personId: personId ?? exposure.personId })
    } catch (cause) {
      if (!isFailure(cause)) throw cause
      // what happened is taken down all the same: it did happen
      troubles.push(cause.message)
      return null
    }
  }
  const wedge =
    state.wedge === null || run.wedgeReadingId !== null
      ? null
      : await told({
          kind: 'wedge',
          ...circumstances,
          lastSolidStep: state.wedge.lastSolidStep,
          ...(state.wedge.firstClearStep === null
            ? {}
            : { firstClearStep: state.wedge.firstClearStep }),
        })
  const outcome =
    state.grade === null || run.outcomeReadingId !== null
      ? null
      : await told({
          kind: 'outcome',
          ...circumstances,
          ...lying,
          ...subject,
          is: { grade: state.grade },
        })
  return { wedge, outcome, notTaken: troubles[0] ?? null }
}
