import { type Day, type NewDay, newDay } from '../../api/day.ts'
import {
  finishWithFailures,
  type LiveEvent,
  type LivePlan,
  type LiveProblem,
  lastStart,
  livePlan,
} from '../../core/session/live.ts'
import { type DayEvent, type DayPlan, dayEvents, dayPlanIn } from '../../store/dayPlans.ts'
import { filmQueue } from '../../store/filmQueue.ts'
import { people } from '../../store/people.ts'
import { openRuns } from '../../store/runs.ts'
import { screens } from '../../store/screens.ts'
import { theShop } from '../../store/shop.ts'
import { things } from '../../store/things.ts'
import type { Told } from '../http/route.ts'
import type { ShopService } from '../shop/shopService.ts'
import { USUAL_WAY, wayOf } from './usualWay.ts'

const MIN_MS = 60_000
/** A plan that began longer ago, or begins later, is not of today. */
const BEFORE_MS = 12 * 60 * MIN_MS
const AHEAD_MS = 14 * 60 * MIN_MS
const MOST_RUNS = 20

/** The day as it stands: the plan after all that happened, what is due, what waits. */
export async function dayTold(service: ShopService): Promise<Told<Day>> {
  const { database } = service.store
  const at = service.now()
  const plan = await dayPlanIn(database, {
    from: new Date(at.getTime() - BEFORE_MS),
    until: new Date(at.getTime() + AHEAD_MS),
  })
  const here = await people(database)
  const own = (await things(database)).filter(({ kind }) => kind === 'station')
  const owners = new Map(here.map(({ id, name }) => [id, name]))
  const endOfDay = new Date(at.getTime() + AHEAD_MS)
  const due = (await screens(database)).flatMap(({ tag, ownerId, keptUntil, state }) =>
    keptUntil === null || keptUntil > endOfDay || state === 'clean'
      ? []
      : [{ tag, owner: owners.get(ownerId ?? '') ?? null, until: keptUntil.toISOString() }],
  )
  return {
    kind: 'day',
    demo: (await theShop(database)).kind === 'demo',
    now: at.toISOString(),
    plan:
      plan === null
        ? null
        : await planTold(service, plan, {
            events: await dayEvents(database, { planId: plan.id }),
            at,
          }),
    usual: {
      stations: wayOf(own),
      againFrom: USUAL_WAY.findIndex(({ job }) => job === 'light'),
      people: here
        .filter(({ role }) => role === 'printer' || role === 'guest')
        .map(({ name, className }) => ({ name, className })),
    },
    due: due.toSorted((a, b) => a.until.localeCompare(b.until)),
    waits: await waiting(database, at),
  }
}

async function planTold(
  service: ShopService,
  { id, title, beginsAt, closesAt, asked }: DayPlan,
  { events, at }: Readonly<{ events: readonly DayEvent[]; at: Date }>,
): Promise<Told<NonNullable<Day['plan']>>> {
  // we wrote it by this contract
  const told = newDay.parse(asked)
  const problem = problemOf(told)
  // laid once until something happens: pages ask every half minute
  const live = await service.kept(`day ${id} ${events.at(-1)?.id ?? ''}`, async () =>
    livePlan(
      problem,
      events.map((event) => liveEvent(event, beginsAt)),
    ),
  )
  const minuteOf = (moment: Date): number => (moment.getTime() - beginsAt.getTime()) / MIN_MS
  const nowMin = minuteOf(at)
  const attended = told.stations.findLast(({ people: stays }) => stays)
  const station = attended?.name ?? told.stations.at(-1)?.name ?? ''
  return {
    id,
    title,
    beginsAt: beginsAt.toISOString(),
    closesAt: closesAt.toISOString(),
    people: told.people.length,
    screens: told.people.reduce((sum, person) => sum + person.screens, 0),
    stations: told.stations,
    againFrom: problem.againFrom,
    tasks: live.tasks,
    finishMin: live.finishMin,
    lastAttendedMin: lastEnd(live, station),
    proved: live.proved,
    withTwoMoreMin: finishWithFailures(live, { problem, station, count: 2 }),
    lastStartMin: lastStart(live, {
      problem,
      byMin: minuteOf(closesAt),
      nowMin: Math.max(0, Math.ceil(nowMin)),
    }),
    moved: live.moved,
  }
}

export function problemOf({ stations, people: all, againFrom }: NewDay): LiveProblem {
  return { stations, people: all, againFrom: Math.min(againFrom, stations.length - 1) }
}

function liveEvent(
  { kind, person, screen, station, minutes, happenedAt }: DayEvent,
  beginsAt: Date,
): LiveEvent {
  const atMin = Math.max(0, (happenedAt.getTime() - beginsAt.getTime()) / MIN_MS)
  const who = { person, screen, atMin }
  switch (kind) {
    case 'failed':
      return { kind, ...who }
    case 'late':
      return { kind, ...who, minutes: minutes ?? 0 }
    case 'done':
      return { kind, ...who, station: station ?? '' }
  }
}

function lastEnd({ tasks }: LivePlan, station: string): number {
  const ends = tasks.filter((task) => task.station === station).map(({ endMin }) => endMin)
  return Math.max(0, ...ends)
}

async function waiting(
  database: ShopService['store']['database'],
  at: Date,
): Promise<readonly string[]> {
  const begunSince = new Date(at.getTime() - BEFORE_MS)
  const runs = await openRuns(database, { limit: MOST_RUNS, begunSince })
  const films = (await filmQueue(database, { leftSince: at })).filter(
    ({ leftAt }) => leftAt === null,
  )
  const waits = films.filter(({ madeAt }) => madeAt === null).length
  const lies = films.length - waits
  return [
    ...(runs.length === 0
      ? []
      : [
          `${runs.length === 1 ? 'One exposure goes' : `${runs.length} exposures go`} on at the bench.`,
        ]),
    ...(waits === 0 ? [] : [`${waits === 1 ? 'One film is' : `${waits} films are`} waited for.`]),
    ...(lies === 0
      ? []
      : [`${lies === 1 ? 'One film lies' : `${lies} films lie`} ready to fetch.`]),
  ]
}
