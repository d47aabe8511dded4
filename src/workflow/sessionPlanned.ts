import { Failure } from '../core/failure.ts'
import {
  leastWaitMin,
  MACHINES,
  MINUTES,
  MOMENT,
  MOST_PEOPLE,
  MOST_SCREENS,
  MOST_STATIONS,
  SCREENS,
  type SessionPerson,
  type SessionProblem,
  type SessionStation,
} from '../core/session/problem.ts'
import type { Range } from '../core/units/range.ts'
import { valueOfJson } from './jsonText.ts'
import { type Section, sectionOf } from './section.ts'

const NAMED = 'the session'
const LONGEST_NAME = 80

/** A class as its file tells it, and when the room closes: null where it does not say. */
export type SessionAsked = Readonly<{ problem: SessionProblem; endMin: number | null }>

/**
 * Reads the text of a session: stations, people, the end.
 *
 * @throws Failure for what is no JSON, an unknown or missing key, a value out of its range, a lag after
 * a station that is not an earlier one or shorter than what lies between; the field is the key with its place
 */
export function sessionFromJson(text: string): SessionAsked {
  const top = sectionOf(valueOfJson(text, { named: 'The session' }), { named: NAMED })
  top.allow(['stations', 'people', 'endMin'])
  const stations: SessionStation[] = []
  for (const [at, value] of listOf(top, 'stations', MOST_STATIONS).entries()) {
    const station = sectionOf(value, { named: NAMED, path: `stations[${at}]` })
    stations.push(stationFrom(station, stations))
    expectKept(station, stations)
  }
  const people = listOf(top, 'people', MOST_PEOPLE).map((value, at) =>
    personFrom(sectionOf(value, { named: NAMED, path: `people[${at}]` })),
  )
  const screens = people.reduce((sum, person) => sum + person.screens, 0)
  if (screens < 1 || screens > MOST_SCREENS) {
    const message = `The session has ${screens} screens in all: from 1 to ${MOST_SCREENS} can be planned.`
    throw new Failure('wrong input', message, { field: 'people' })
  }
  const endMin = top.has('endMin') ? top.number('endMin', { range: MOMENT, absent: 180 }) : null
  return { problem: { stations, people }, endMin }
}

function stationFrom(station: Section, before: readonly SessionStation[]): SessionStation {
  station.allow(['name', 'machines', 'minutes', 'people', 'after'])
  const name = nameOf(station)
  if (before.some((other) => other.name === name)) {
    throw station.refusal('name', 'must be of one station alone')
  }
  const people = station.has('people') ? station.raw('people') : false
  if (typeof people !== 'boolean') throw station.refusal('people', 'must be true or false')
  return {
    name,
    machines: station.number('machines', { range: MACHINES, absent: 1 }),
    minutes: needed(station, 'minutes', MINUTES, 10),
    people,
    ...(station.has('after') ? { after: lagFrom(station.inner('after'), before) } : {}),
  }
}

function lagFrom(
  lag: Section,
  before: readonly SessionStation[],
): NonNullable<SessionStation['after']> {
  lag.allow(['station', 'minMin', 'maxMin'])
  const station = before.findIndex(({ name }) => name === lag.raw('station'))
  if (station < 0) throw lag.refusal('station', 'must be the name of an earlier station')
  const minMin = lag.number('minMin', { range: MOMENT, absent: 0 })
  const most = { ...MOMENT, low: minMin }
  const maxMin = lag.has('maxMin') ? lag.number('maxMin', { range: most, absent: minMin }) : null
  return { station, minMin, maxMin }
}

/** @throws Failure for a longest wait that not even a screen alone in the room could keep */
function expectKept(station: Section, stations: readonly SessionStation[]): void {
  const most = stations.at(-1)?.after?.maxMin ?? null
  const least = leastWaitMin(stations)
  if (most === null || most >= least - 1e-9) return
  const must = `must be at least ${Number(least.toFixed(3))} min, which what lies between takes`
  throw station.inner('after').refusal('maxMin', must)
}

function personFrom(person: Section): SessionPerson {
  person.allow(['name', 'screens', 'arriveMin'])
  return {
    name: nameOf(person),
    screens: person.number('screens', { range: SCREENS, absent: 1 }),
    arriveMin: person.number('arriveMin', { range: MOMENT, absent: 0 }),
  }
}

function nameOf(section: Section): string {
  const name = section.raw('name')
  if (typeof name === 'string' && name.trim() !== '' && name.length <= LONGEST_NAME) return name
  throw section.refusal('name', `must be a name of at most ${LONGEST_NAME} letters`)
}

function needed(section: Section, key: string, range: Range, like: number): number {
  if (!section.has(key))
    throw section.refusal(key, `must be a number of ${range.unit}, like ${like}`)
  return section.number(key, { range, absent: like })
}

function listOf(section: Section, key: string, most: number): readonly unknown[] {
  const list = section.raw(key)
  if (!Array.isArray(list)) throw section.refusal(key, 'must be a list in brackets')
  if (list.length >= 1 && list.length <= most) return list as readonly unknown[]
  const message = `The session has ${list.length} ${key}: from 1 to ${most} can be planned.`
  throw new Failure('wrong input', message, { field: key })
}
