import { type Clocks, type ClockTold, type NewClock } from '../../api/clocks.ts'
import { clockStart, runState } from '../../core/runSheet/progress.ts'
import { layerSaid } from '../../core/ticket/codes.ts'
import { clocksWithKeys, runningClocks, tellClock } from '../../store/clocks.ts'
import { type Database, inTransaction } from '../../store/database/database.ts'
import { exposureOf } from '../../store/exposures.ts'
import { allPeople } from '../../store/people.ts'
import { openRuns, runEvents } from '../../store/runs.ts'
import { screens, screenWithTag } from '../../store/screens.ts'
import { layerOfFilm } from '../../store/tickets.ts'
import { eventOf, runInList, stepsIn } from '../bench/runAnswer.ts'
import type { Told } from '../http/route.ts'
import { expectShown } from '../people/expectShown.ts'
import type { Who } from '../people/peopleKeeper.ts'
import type { ShopService } from '../shop/shopService.ts'
import { type DeviceClock, oursLess } from './byOurClock.ts'

/** What was left running longer ago is nobody's any more. */
const RUNS_MS = 16 * 3600_000
const MOST_RUNS = 40

/** Clocks that run in the room: remover on screens, and steps of exposures. */
export async function clocksTold(
  { store: { database }, now }: ShopService,
  { who }: Readonly<{ who: Who }>,
): Promise<Told<Clocks>> {
  const at = now()
  const since = new Date(at.getTime() - RUNS_MS)
  const names = new Map((await allPeople(database)).map(({ id, name }) => [id, name]))
  const whose = (personId: string | null) => ({
    person: names.get(personId ?? '') ?? null,
    mine: personId !== null && personId === who.person?.id,
  })
  const running = await runningClocks(database, { startedSince: since })
  const tags =
    running.length === 0
      ? new Map<string, string>()
      : new Map((await screens(database)).map(({ id, tag }) => [id, tag]))
  const removers = running.map(({ sentKey, screenId, personId, startedAt, sec }) => ({
    key: sentKey,
    what: 'remover' as const,
    title: 'Remover',
    about: `screen ${tags.get(screenId) ?? ''}`,
    ...whose(personId),
    startedAt: startedAt.toISOString(),
    sec,
    screen: tags.get(screenId) ?? null,
    run: null,
  }))
  const steps = await stepClocks(database, since)
  return {
    kind: 'clocks',
    now: at.toISOString(),
    clocks: [
      ...removers,
      ...steps.map(({ personId, ...step }) => ({ ...step, ...whose(personId) })),
    ].toSorted((a, b) => endMs(a) - endMs(b)),
  }
}

function endMs({ startedAt, sec }: Pick<ClockTold, 'startedAt' | 'sec'>): number {
  return Date.parse(startedAt) + sec * 1000
}

type StepClock = Omit<Told<ClockTold>, 'person' | 'mine'> & Readonly<{ personId: string | null }>

/** Exposures that go on at a step whose clock runs down. */
async function stepClocks(database: Database, begunSince: Date): Promise<readonly StepClock[]> {
  const found: StepClock[] = []
  for (const run of await openRuns(database, { limit: MOST_RUNS, begunSince })) {
    const events = await runEvents(database, { runId: run.id })
    const state = runState(stepsIn(run), events.map(eventOf))
    const { step } = state
    const startedMs = step === null ? undefined : clockStart(step, state)
    if (step?.clock?.sec === undefined || step.clock.sec === null || startedMs === undefined) {
      continue
    }
    const { exposure, filmIds } = await exposureOf(database, run.exposureId)
    const layer = await layerOfFilm(database, filmIds[0] ?? null)
    const { about } = runInList({ run, events, layer })
    const { personId } = exposure
    found.push({
      key: `run-${run.id}-${step.name}`,
      what: 'step',
      title: step.title,
      about: `${layer === null ? about.subject : layerSaid(layer, about.subject)}, ${about.screen ?? about.unit}`,
      personId,
      startedAt: new Date(startedMs).toISOString(),
      sec: step.clock.sec,
      screen: null,
      run: run.id,
    })
  }
  return found
}

/**
 * Takes down clocks that a device started or ended, by our clock; told again nothing changes.
 *
 * @throws Failure 'not found' for a screen that the shop does not have, 'conflict' for whom nobody
 * has shown the remover
 */
export async function clocksHeard(
  { store: { database }, now }: ShopService,
  { clocks, ...sent }: DeviceClock & Readonly<{ clocks: readonly NewClock[] }>,
  { who }: Readonly<{ who: Who }>,
): Promise<void> {
  const at = now()
  const oursMs = oursLess(sent, at)
  const known = new Set(
    (
      await clocksWithKeys(
        database,
        clocks.map(({ key }) => key),
      )
    ).map(({ sentKey }) => sentKey),
  )
  if (clocks.some(({ key }) => !known.has(key))) {
    await expectShown(database, who, { act: 'reclaim', now: at })
  }
  const ours = (told: string): Date => new Date(Math.min(at.getTime(), Date.parse(told) + oursMs))
  await inTransaction(database, async (inner) => {
    for (const { key, screen, sec, startedAt, endedAt } of clocks) {
      const { id: screenId } = await screenWithTag(inner, screen)
      const began = ours(startedAt)
      const ended = endedAt === null ? null : ours(endedAt)
      await tellClock(
        inner,
        {
          sentKey: key,
          kind: 'remover',
          screenId,
          personId: who.person?.id ?? null,
          startedAt: began,
          sec,
          endedAt: ended === null ? null : new Date(Math.max(began.getTime(), ended.getTime())),
        },
        { at },
      )
    }
  })
}
