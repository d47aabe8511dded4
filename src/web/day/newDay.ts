import type { DayStation, NewDay } from '../../api/day.ts'
import { DAY_WORDS } from './dayWords.ts'

/** A class as it is written on the page. */
export type DayDraft = Readonly<{
  title: string
  begins: string
  closes: string
  people: string
  isCoated: boolean
  stations: readonly Readonly<{
    name: string
    machines: string
    minutes: string
    people: boolean
  }>[]
  againFrom: number
}>

export type DayWrongs = Readonly<{
  people: string | null
  begins: string | null
  closes: string | null
  stations: string | null
}>

type Read = Readonly<{ day: NewDay | null; wrongs: DayWrongs }>
type People = NewDay['people']

const NONE: DayWrongs = { people: null, begins: null, closes: null, stations: null }
const TIME = /^([01]?\d|2[0-3])[:.]([0-5]\d)$/
const MOST_SCREENS = 10

/** What was written as a class of today, or what is wrong with it. */
export function dayWritten(draft: DayDraft, { today }: Readonly<{ today: Date }>): Read {
  const words = DAY_WORDS.fresh
  const lines = draft.people
    .split('\n')
    .map((line) => line.trim())
    .filter((line) => line !== '')
  const people = lines.map(personIn)
  const bad = lines.find((_, at) => people[at] === null)
  const begins = timeOn(draft.begins, today)
  const closes = timeOn(draft.closes, today)
  const stations = draft.stations.map(stationIn)
  const wrongs: DayWrongs = {
    people: lines.length === 0 ? words.noPeople : bad === undefined ? null : words.badLine(bad),
    begins: begins === null ? words.badTime : null,
    closes: closes === null ? words.badTime : null,
    stations: stations.includes(null) ? words.badNumber : null,
  }
  const isWhole = Object.values(wrongs).every((wrong) => wrong === null)
  if (!isWhole || begins === null || closes === null) return { day: null, wrongs }
  const from = draft.isCoated ? draft.againFrom : 0
  const title = draft.title.trim()
  return {
    wrongs: NONE,
    day: {
      title: title === '' ? (DAY_WORDS.fresh.titleExample.split(',')[0] ?? title) : title,
      beginsAt: begins.toISOString(),
      closesAt: closes.toISOString(),
      people: people as People,
      stations: (stations as DayStation[]).slice(from),
      againFrom: draft.againFrom - from,
    },
  }
}

/** “Tamsin 2”, “Jonah Pell”; null for what is none. */
function personIn(line: string): People[number] | null {
  const [, name = line, count = '1'] = /^(.*\S)\s+(\d+)$/.exec(line) ?? []
  const screens = Number(count)
  if (!(screens >= 1 && screens <= MOST_SCREENS) || name.length > 80) return null
  return { name, screens, arriveMin: 0 }
}

function timeOn(written: string, today: Date): Date | null {
  const [, hours, minutes] = TIME.exec(written.trim()) ?? []
  if (hours === undefined) return null
  const at = new Date(today)
  at.setHours(Number(hours), Number(minutes), 0, 0)
  return at
}

function stationIn({
  name,
  machines,
  minutes,
  people,
}: DayDraft['stations'][number]): DayStation | null {
  const [count, each] = [Number(machines), Number(minutes)]
  const isRight = Number.isInteger(count) && count >= 1 && count <= 50 && each >= 1 && each <= 600
  return isRight ? { name, machines: count, minutes: each, people } : null
}
