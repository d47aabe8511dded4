import { finishBound } from './bound.ts'
import { expectSession, type SessionProblem } from './problem.ts'
import { freeFrom, newTimeline, type Timeline, take } from './timeline.ts'

export type SessionTask = Readonly<{
  person: string
  /** Of this person, from 1. */
  screen: number
  station: string
  /** Of this station, from 1. */
  machine: number
  startMin: number
  endMin: number
}>

export type SessionPlan = Readonly<{
  finishMin: number
  /** No plan finishes before. */
  bound: number
  /** That none finishes earlier than this one. */
  proved: boolean
  tasks: readonly SessionTask[]
}>

type Screen = Readonly<{ person: number; screen: number }>

/** Orders of the screens that are tried; a swap more or less is not seen. */
const MOST_ORDERS = 600
const SLACK_MIN = 1e-6

/**
 * A timetable for a class: screen after screen in several orders, each at once as early as it can
 * be, then with two of them swapped as long as that helps, until the bound is reached.
 *
 * @throws RangeError as `expectSession`
 * @source session-bound
 * @limits lists of screens, not of single stations: a shorter plan may be there where it is not proved
 */
export function sessionPlan(problem: SessionProblem): SessionPlan {
  expectSession(problem)
  const bound = finishBound(problem)
  const isBest = ({ finishMin }: Laid): boolean => finishMin <= bound + SLACK_MIN
  const firsts = firstOrders(problem).map((order) => laid(problem, order))
  let best = firsts.reduce((least, other) => (isBetter(other, least) ? other : least))
  let orders = 0
  for (let moved = true; moved && !isBest(best) && orders < MOST_ORDERS; ) {
    moved = false
    const { order } = best
    search: for (let one = 0; one < order.length; one++) {
      for (let other = one + 1; other < order.length; other++) {
        if (order[one]?.person === order[other]?.person) continue
        if (++orders > MOST_ORDERS) break search
        const tried = laid(problem, swapped(order, one, other))
        if (!isBetter(tried, best)) continue
        best = tried
        moved = true
        break search
      }
    }
  }
  return { finishMin: best.finishMin, bound, proved: isBest(best), tasks: best.tasks }
}

type Laid = Readonly<{
  order: readonly Screen[]
  finishMin: number
  /** Of all screens: of two plans that finish together the one that lets people go earlier. */
  sumMin: number
  tasks: readonly SessionTask[]
}>

function isBetter(one: Laid, other: Laid): boolean {
  if (one.finishMin < other.finishMin - SLACK_MIN) return true
  return one.finishMin < other.finishMin + SLACK_MIN && one.sumMin < other.sumMin - SLACK_MIN
}

/** As they come; by turns; those with most screens first; the last to come first. */
function firstOrders({ people }: SessionProblem): readonly (readonly Screen[])[] {
  const all = people.flatMap(({ screens }, person) =>
    Array.from({ length: screens }, (_, screen): Screen => ({ person, screen })),
  )
  const arrival = ({ person }: Screen): number => people[person]?.arriveMin ?? 0
  const left = ({ person, screen }: Screen): number => (people[person]?.screens ?? 0) - screen
  const by = (...keys: readonly ((screen: Screen) => number)[]): readonly Screen[] =>
    all.toSorted((a, b) => keys.reduce((order, key) => order || key(a) - key(b), 0))
  return [
    by(
      arrival,
      ({ person }) => person,
      ({ screen }) => screen,
    ),
    by(
      ({ screen }) => screen,
      arrival,
      ({ person }) => person,
    ),
    by(
      (each) => -left(each),
      arrival,
      ({ person }) => person,
    ),
    by(
      ({ screen }) => screen,
      (each) => -arrival(each),
      ({ person }) => person,
    ),
  ]
}

function swapped(order: readonly Screen[], one: number, other: number): readonly Screen[] {
  const [a, b] = [order[one], order[other]]
  return order.map((screen, at) =>
    at === one && b !== undefined ? b : at === other && a !== undefined ? a : screen,
  )
}

function laid({ stations, people }: SessionProblem, order: readonly Screen[]): Laid {
  const machines = stations.map(({ machines: count }) => Array.from({ length: count }, newTimeline))
  const persons = people.map(newTimeline)
  const tasks: SessionTask[] = []
  let [finishMin, sumMin] = [0, 0]
  for (const { person, screen } of order) {
    const { name, arriveMin } = people[person] ?? { name: '', arriveMin: 0 }
    const own = persons[person] ?? newTimeline()
    const places = placesOf(stations, { arriveMin, machines, own })
    for (const [at, { startMin, machine }] of places.entries()) {
      const station = stations[at]
      const line = machines[at]?.[machine]
      if (station === undefined || line === undefined) continue
      const taken = { start: startMin, end: startMin + station.minutes }
      take(line, taken)
      if (station.people) take(own, taken)
      tasks.push({
        person: name,
        screen: screen + 1,
        station: station.name,
        machine: machine + 1,
        startMin,
        endMin: taken.end,
      })
    }
    const end = tasks.at(-1)?.endMin ?? 0
    finishMin = Math.max(finishMin, end)
    sumMin += end
  }
  tasks.sort((a, b) => a.startMin - b.startMin)
  return { order, finishMin, sumMin, tasks }
}

/** From when on, at which of a station's machines, counted from 0. */
export type Place = Readonly<{ startMin: number; machine: number }>

/** One screen through all stations, each as early as it can be; a longest wait holds the earlier one back. */
function placesOf(
  stations: SessionProblem['stations'],
  {
    arriveMin,
    machines,
    own,
  }: Readonly<{ arriveMin: number; machines: readonly (readonly Timeline[])[]; own: Timeline }>,
): readonly Place[] {
  const notBefore = stations.map(() => arriveMin)
  const places: Place[] = []
  for (let at = 0; at < stations.length; ) {
    const { minutes, people, after } = stations[at] ?? { minutes: 0, people: false }
    const endOf = (station: number): number =>
      (places[station]?.startMin ?? 0) + (stations[station]?.minutes ?? 0)
    const from = Math.max(
      notBefore[at] ?? 0,
      at === 0 ? 0 : endOf(at - 1),
      after === undefined ? 0 : endOf(after.station) + after.minMin,
    )
    const place = earliest(machines[at] ?? [], { from, minutes, own: people ? own : null })
    const most = after?.maxMin ?? null
    if (
      after !== undefined &&
      most !== null &&
      place.startMin > endOf(after.station) + most + 1e-9
    ) {
      // The earlier one waits, so that this one need not: and all between are laid anew.
      const late = place.startMin - most - (stations[after.station]?.minutes ?? 0)
      notBefore[after.station] = Math.max(late, notBefore[after.station] ?? 0)
      at = after.station
      places.length = at
      continue
    }
    places[at] = place
    at += 1
  }
  return places
}

/** The machine that is free first, when its person is free as well. @throws RangeError without one */
export function earliest(
  lines: readonly Timeline[],
  { from, minutes, own }: Readonly<{ from: number; minutes: number; own: Timeline | null }>,
): Place {
  let best: Place | null = null
  for (const [machine, line] of lines.entries()) {
    let startMin = from
    for (;;) {
      const free = freeFrom(line, { from: startMin, minutes })
      const both = own === null ? free : freeFrom(own, { from: free, minutes })
      startMin = both
      if (both === free) break
    }
    if (best === null || startMin < best.startMin - 1e-9) best = { startMin, machine }
  }
  if (best === null) throw new RangeError('session: a station has no machine')
  return best
}
