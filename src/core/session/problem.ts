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

/** @throws RangeError where a number cannot be, or a station comes after one that is not before it */
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
    if (after.maxMin !== null) expectIn(after.maxMin, { ...MOMENT, low: after.minMin })
  }
  for (const { screens, arriveMin } of people) {
    expectIn(screens, SCREENS)
    expectIn(arriveMin, MOMENT)
  }
  const all = people.reduce((sum, { screens }) => sum + screens, 0)
  expectIn(all, { name: 'screens', low: 1, high: MOST_SCREENS, unit: '', whole: true })
}
