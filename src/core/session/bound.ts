import type { SessionProblem } from './problem.ts'

/**
 * A moment before which the last screen cannot be done: the latest of
 * each screen by itself; each person, who can be at one station at a time; each station, whose
 * screens come no earlier than they can and are then served first come, first served, which is the
 * best order where all take the same time, and go on from there without waiting.
 *
 * @returns minutes from the beginning
 * @source session-bound
 */
export function finishBound({ stations, people }: SessionProblem): number {
  const heads = earliestStarts(stations)
  const tails = leastAfter(stations)
  const bounds: number[] = []
  for (const { screens, arriveMin } of people) {
    if (screens === 0) continue
    bounds.push(arriveMin + (heads.at(-1) ?? 0) + (stations.at(-1)?.minutes ?? 0))
    const attended = stations.flatMap(({ people: stays }, at) => (stays ? [at] : []))
    const work = attended.reduce((sum, at) => sum + (stations[at]?.minutes ?? 0), 0)
    const [first, last] = [attended[0], attended.at(-1)]
    if (first === undefined || last === undefined) continue
    bounds.push(arriveMin + (heads[first] ?? 0) + screens * work + (tails[last] ?? 0))
  }
  for (const [at, { machines, minutes }] of stations.entries()) {
    const arrivals = people
      .flatMap(({ screens, arriveMin }) => Array.from({ length: screens }, () => arriveMin))
      .map((arriveMin) => arriveMin + (heads[at] ?? 0))
      .sort((a, b) => a - b)
    const free = new Array<number>(machines).fill(0)
    let end = 0
    for (const arrival of arrivals) {
      const next = free.indexOf(Math.min(...free))
      end = Math.max(arrival, free[next] ?? 0) + minutes
      free[next] = end
    }
    bounds.push(Math.max(...free) + (tails[at] ?? 0))
  }
  return Math.max(...bounds)
}

type Stations = SessionProblem['stations']

/** Of a screen that waits for nothing: when each station begins, from its arrival on. */
function earliestStarts(stations: Stations): readonly number[] {
  const starts: number[] = []
  for (const [at, { after }] of stations.entries()) {
    const before = at === 0 ? 0 : (starts[at - 1] ?? 0) + (stations[at - 1]?.minutes ?? 0)
    const lagged =
      after === undefined
        ? 0
        : (starts[after.station] ?? 0) + (stations[after.station]?.minutes ?? 0) + after.minMin
    starts.push(Math.max(before, lagged))
  }
  return starts
}

/** From the end of each station to the end of the last, with no waiting. */
function leastAfter(stations: Stations): readonly number[] {
  const tails = stations.map(() => 0)
  for (let at = stations.length - 1; at > 0; at--) {
    const through = (tails[at] ?? 0) + (stations[at]?.minutes ?? 0)
    tails[at - 1] = Math.max(tails[at - 1] ?? 0, through)
    const after = stations[at]?.after
    if (after === undefined) continue
    tails[after.station] = Math.max(tails[after.station] ?? 0, after.minMin + through)
  }
  return tails
}
