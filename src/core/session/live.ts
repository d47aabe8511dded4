import { earliest, type SessionTask, sessionPlan } from './plan.ts'
import type { SessionProblem } from './problem.ts'
import { newTimeline, type Timeline, take } from './timeline.ts'

/** What happened while a class went on, at a minute of its plan. */
export type LiveEvent = Readonly<
  { person: string; screen: number; atMin: number } & (
    | { kind: 'failed' }
    | { kind: 'late'; minutes: number }
    | { kind: 'done'; station: string }
  )
>

export type LiveTask = SessionTask &
  Readonly<{
    /** It is made again: how many times the screen failed before. */
    again: number
    /** The screen failed after this. */
    failed: boolean
  }>

export type LivePlan = Readonly<{
  tasks: readonly LiveTask[]
  finishMin: number
  /** No plan of the class was faster, before anything happened. */
  proved: boolean
  /** What the last event moved: who begins where later or earlier by so many minutes. */
  moved: readonly Readonly<{ person: string; station: string; byMin: number; startMin: number }>[]
}>

/** A class whose stations follow on each other at once: no lag between them is kept here. */
export type LiveProblem = Pick<SessionProblem, 'people'> &
  Readonly<{
    stations: readonly (Omit<SessionProblem['stations'][number], 'after'> & { after?: never })[]
    /** Where a screen that failed begins again, counted from 0: at the lamp with a spare one. */
    againFrom: number
  }>

/** As it would be, and as it is after all that happened: what has begun stays, the rest is laid anew. */
export function livePlan(problem: LiveProblem, events: readonly LiveEvent[]): LivePlan {
  const { tasks, finishMin, proved } = sessionPlan(problem)
  const first: LivePlan = {
    tasks: tasks.map((task) => ({ ...task, again: 0, failed: false })),
    finishMin,
    proved,
    moved: [],
  }
  return [...events]
    .toSorted((a, b) => a.atMin - b.atMin)
    .reduce((plan, event) => afterEvent(plan, { event, problem }), first)
}

/** When all are done if the last screens at a station fail once more. */
export function finishWithFailures(
  plan: LivePlan,
  { problem, station, count }: Readonly<{ problem: LiveProblem; station: string; count: number }>,
): number {
  const last = plan.tasks
    .filter((task) => task.station === station && !task.failed)
    .toSorted((a, b) => b.endMin - a.endMin)
    .slice(0, count)
    .toReversed()
  const after = last.reduce<LivePlan>((so, { person, screen, endMin }) => {
    const event = { kind: 'failed', person, screen, atMin: endMin } as const
    return afterEvent(so, { event, problem })
  }, plan)
  return after.finishMin
}

/** The last minute at which one more screen may begin to be done by a time; null: it is too late. */
export function lastStart(
  plan: LivePlan,
  { problem, byMin, nowMin }: Readonly<{ problem: LiveProblem; byMin: number; nowMin: number }>,
): number | null {
  const free = laidOut(problem, plan.tasks)
  const least = problem.stations.reduce((sum, { minutes }) => sum + minutes, 0)
  for (let from = Math.floor(byMin - least); from >= nowMin; from--) {
    let at = from
    for (const [index, { minutes }] of problem.stations.entries()) {
      const lines = free.machines[index] ?? []
      at = earliest(lines, { from: at, minutes, own: null }).startMin + minutes
    }
    if (at <= byMin) return from
  }
  return null
}

type Happened = Readonly<{ event: LiveEvent; problem: LiveProblem }>
/** A screen's way that is still to be laid. */
type Rest = Readonly<{
  person: string
  screen: number
  again: number
  stations: readonly number[]
  /** When it was to go on, for the order. */
  wasMin: number
  fromMin: number
}>

function afterEvent(plan: LivePlan, { event, problem }: Happened): LivePlan {
  const names = problem.stations.map(({ name }) => name)
  const isIts = (task: LiveTask): boolean =>
    task.person === event.person && task.screen === event.screen
  // of a screen that is not in the class nothing happened here
  if (!plan.tasks.some(isIts)) return { ...plan, moved: [] }
  const now = event.atMin
  const kept = plan.tasks
    .filter(({ startMin }) => startMin < now)
    .map((task) => begun(task, { event, isIts: isIts(task), tasks: plan.tasks }))
  const rests = restsOf(plan.tasks, { kept, names, now })
    .filter((rest) => !(event.kind === 'failed' && isOf(rest, event)))
    .map((rest) =>
      event.kind === 'late' && rest.person === event.person
        ? { ...rest, fromMin: Math.max(rest.fromMin, now + event.minutes) }
        : rest,
    )
  const again: Rest | null =
    event.kind === 'failed'
      ? {
          person: event.person,
          screen: event.screen,
          again: Math.max(0, ...plan.tasks.filter(isIts).map((task) => task.again)) + 1,
          stations: names.map((_, at) => at).slice(problem.againFrom),
          wasMin: now,
          fromMin: now,
        }
      : null
  const tasks = bestLaid(problem, { kept, rests, again })
  const finishMin = Math.max(0, ...tasks.map(({ endMin }) => endMin))
  return { ...plan, tasks, finishMin, moved: movedIn(plan.tasks, tasks) }
}

function begun(
  task: LiveTask,
  {
    event,
    isIts,
    tasks,
  }: Readonly<{ event: LiveEvent; isIts: boolean; tasks: readonly LiveTask[] }>,
): LiveTask {
  if (!isIts) return task
  if (event.kind === 'done' && task.station === event.station) {
    return { ...task, endMin: event.atMin }
  }
  if (event.kind !== 'failed') return task
  const last = tasks
    .filter(
      ({ person, screen, startMin }) =>
        person === task.person && screen === task.screen && startMin < event.atMin,
    )
    .reduce((a, b) => (b.startMin > a.startMin ? b : a), task)
  const isLast = last.startMin === task.startMin && last.station === task.station
  return isLast ? { ...task, failed: true, endMin: Math.min(task.endMin, event.atMin) } : task
}

function restsOf(
  tasks: readonly LiveTask[],
  {
    kept,
    names,
    now,
  }: Readonly<{ kept: readonly LiveTask[]; names: readonly string[]; now: number }>,
): readonly Rest[] {
  const rests = new Map<string, LiveTask[]>()
  for (const task of tasks) {
    if (task.startMin < now) continue
    const key = JSON.stringify([task.person, task.screen, task.again])
    rests.set(key, [...(rests.get(key) ?? []), task])
  }
  return [...rests.values()].flatMap((own) => {
    const [first] = own
    if (first === undefined) return []
    const before = kept.filter((task) => isOf(task, first) && task.again === first.again)
    return [
      {
        person: first.person,
        screen: first.screen,
        again: first.again,
        stations: own.map(({ station }) => names.indexOf(station)),
        wasMin: first.startMin,
        fromMin: Math.max(now, ...before.map(({ endMin }) => endMin)),
      },
    ]
  })
}

/** Everybody keeps the order; the one that is made again goes where all are done first. */
function bestLaid(
  problem: LiveProblem,
  {
    kept,
    rests,
    again,
  }: Readonly<{ kept: readonly LiveTask[]; rests: readonly Rest[]; again: Rest | null }>,
): readonly LiveTask[] {
  const order = rests.toSorted((a, b) => a.wasMin - b.wasMin)
  if (again === null) return laid(problem, { kept, order })
  let best: readonly LiveTask[] | null = null
  for (let at = 0; at <= order.length; at++) {
    const tried = laid(problem, { kept, order: order.toSpliced(at, 0, again) })
    if (best === null || costOf(tried) < costOf(best) - 1e-6) best = tried
  }
  return best ?? kept
}

/** First the end of all, then the sum of the ends of each. */
function costOf(tasks: readonly LiveTask[]): number {
  const ends = tasks.map(({ endMin }) => endMin)
  return Math.max(0, ...ends) + ends.reduce((sum, end) => sum + end, 0) / 1e6
}

function laid(
  { stations }: LiveProblem,
  { kept, order }: Readonly<{ kept: readonly LiveTask[]; order: readonly Rest[] }>,
): readonly LiveTask[] {
  const { machines, persons } = laidOut({ stations }, kept)
  const tasks: LiveTask[] = [...kept]
  for (const { person, screen, again, stations: way, fromMin } of order) {
    const own = persons.get(person) ?? newTimeline()
    persons.set(person, own)
    let at = fromMin
    for (const index of way) {
      const station = stations[index]
      const lines = machines[index]
      if (station === undefined || lines === undefined) continue
      const { minutes, people, name } = station
      const { startMin, machine } = earliest(lines, { from: at, minutes, own: people ? own : null })
      const line = lines[machine]
      const taken = { start: startMin, end: startMin + minutes }
      if (line !== undefined) take(line, taken)
      if (people) take(own, taken)
      tasks.push({
        person,
        screen,
        again,
        station: name,
        machine: machine + 1,
        startMin,
        endMin: taken.end,
        failed: false,
      })
      at = taken.end
    }
  }
  return tasks.toSorted((a, b) => a.startMin - b.startMin)
}

function laidOut(
  { stations }: Pick<LiveProblem, 'stations'>,
  kept: readonly LiveTask[],
): Readonly<{ machines: readonly (readonly Timeline[])[]; persons: Map<string, Timeline> }> {
  const machines = stations.map(({ machines: count }) => Array.from({ length: count }, newTimeline))
  const persons = new Map<string, Timeline>()
  for (const { person, station, machine, startMin, endMin } of kept) {
    const index = stations.findIndex(({ name }) => name === station)
    const line = machines[index]?.[machine - 1]
    const taken = { start: startMin, end: endMin }
    if (line !== undefined) take(line, taken)
    if (stations[index]?.people !== true) continue
    const own = persons.get(person) ?? newTimeline()
    take(own, taken)
    persons.set(person, own)
  }
  return { machines, persons }
}

/** Under this nobody needs to know. */
const MOVED_MIN = 1

function movedIn(before: readonly LiveTask[], after: readonly LiveTask[]): LivePlan['moved'] {
  return after.flatMap(({ person, screen, again, station, startMin }) => {
    const was = before.find(
      (task) => isOf(task, { person, screen }) && task.again === again && task.station === station,
    )
    if (was === undefined || Math.abs(startMin - was.startMin) < MOVED_MIN) return []
    return [{ person, station, byMin: startMin - was.startMin, startMin }]
  })
}

function isOf(
  one: Readonly<{ person: string; screen: number }>,
  other: Readonly<{ person: string; screen: number }>,
): boolean {
  return one.person === other.person && one.screen === other.screen
}
