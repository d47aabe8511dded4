import { expectIn, type Range } from '../units/range.ts'

/** A place where each screen spends some minutes: so many screens at once as it has machines. */
export type SessionStation = Readonly<{
  name: string
  machines: number
  minutes: number
  /** The screen's person stays throughout, and can be nowhere else. */
  people: boolean
  /** How long after the end of an earlier station it may begin. */
  after?: Readonly<{ station: number; minMin: number; maxMin: number | null }> | undefined
}>

export type SessionPerson = Readonly<{ name: string; screens: number; arriveMin: number }>

/** A class: each screen visits the stations in their order. */
export type SessionProblem = Readonly<{
  stations: readonly SessionStation[]
  people: readonly SessionPerson[]
}>

export const MINUTES: Range = { name: 'minutes', low: 0.1, high: 10_000, unit: 'min' }
export const MOMENT: Range = { name: 'moment', low: 0, high: 100_000, unit: 'min' }
export const MACHINES: Range = { name: 'machines', low: 1, high: 500, unit: '', whole: true }
export const SCREENS: Range = { name: 'screens', low: 0, high: 200, unit: '', whole: true }
export const MOST_STATIONS = 20
export const MOST_PEOPLE = 200
/** Screens of all people together. */
export const MOST_SCREENS = 400

/** Rounding of sums of minutes. */
const SLACK_MIN = 1e-9

/**
 * How long the last of these stations begins after the end of the one it waits for, at the least: what
 * lies between them takes its time, and their own waits hold it up. A screen that is alone in the room
 * keeps to a longest wait of no less, and to none of less.
 *
 * The earliest starts that the waits of the stations before allow, by rounds of all of them.
 *
 * @param stations in their order; longest waits before the last can be kept
 * @returns minutes; 0 where the last waits for none
 */
export function leastWaitMin(stations: readonly SessionStation[]): number {
  const last = stations.length - 1
  const from = stations[last]?.after?.station
  if (from === undefined) return 0
  const starts = stations.map((_, at) => (at === from ? 0 : Number.NEGATIVE_INFINITY))
  const endOf = (at: number): number => (starts[at] ?? 0) + (stations[at]?.minutes ?? 0)
  const notBefore = (at: number, startMin: number): void => {
    starts[at] = Math.max(starts[at] ?? 0, startMin)
  }
  for (let round = 0; round < stations.length; round++) {
    for (const [at, { after }] of stations.entries()) {
      if (at > 0) notBefore(at, endOf(at - 1))
      if (after === undefined) continue
      notBefore(at, endOf(after.station) + after.minMin)
      if (after.maxMin === null || at === last) continue
      notBefore(
        after.station,
        (starts[at] ?? 0) - after.maxMin - (stations[after.station]?.minutes ?? 0),
      )
    }
  }
  return (starts[last] ?? 0) - endOf(from)
}

/** @throws RangeError where a number cannot be, a longest wait cannot be kept, or a station comes after one that is not before it */
export function expectSession({ stations, people }: SessionProblem): void {
  expectIn(stations.length, {
    name: 'stations',
    low: 1,
    high: MOST_STATIONS,
    unit: '',
    whole: true,
  })
  expectIn(people.length, { name: 'people', low: 1, high: MOST_PEOPLE, unit: '', whole: true })
  for (const [at, { machines, minutes, after }] of stations.entries()) {
    expectIn(machines, MACHINES)
    expectIn(minutes, MINUTES)
    if (after === undefined) continue
    expectIn(after.station, { name: 'after', low: 0, high: at - 1, unit: '', whole: true })
    expectIn(after.minMin, MOMENT)
    if (after.maxMin !== null) {
      const least = leastWaitMin(stations.slice(0, at + 1))
      expectIn(after.maxMin, { ...MOMENT, low: Math.max(after.minMin, least - SLACK_MIN) })
    }
  }
  for (const { screens, arriveMin } of people) {
    expectIn(screens, SCREENS)
    expectIn(arriveMin, MOMENT)
  }
  const all = people.reduce((sum, { screens }) => sum + screens, 0)
  expectIn(all, { name: 'screens', low: 1, high: MOST_SCREENS, unit: '', whole: true })
}
