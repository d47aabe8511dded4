import { type SessionPlan, sessionPlan } from '../../core/session/plan.ts'
import type { Place } from '../arguments.ts'
import type { Command } from '../command.ts'
import { columns } from '../figures.ts'
import { path } from '../reads.ts'
import { readTextFile } from '../textFile.ts'

const MOST_BYTES = 1_000_000

const SESSION: Place<string> = {
  name: 'S.json',
  about: 'stations, people and the end as JSON, times in minutes',
  needed: true,
  reads: path({ what: 'session', shown: 'S.json' }),
}

export const session: Command = {
  name: 'session',
  summary: 'a timetable for a class: who is where when, and when the last screen is done',
  places: [SESSION],
  options: [],
  notes: [
    'A session has "stations" [{name, machines, minutes, people, after}] that each screen visits in order, "people" [{name, screens, arriveMin}] and "endMin", like docs/example/session.json. "people": true where the person stays; "after" {station, minMin, maxMin} is a wait after the end of an earlier station.',
    'Drying, lamps and water take what they take: plan with what your room needs, and leave time for a screen that must be made again.',
  ],
  example: {
    line: 'session docs/example/session.json',
    prints: [
      'All done after 1:44, and no plan is faster.',
      '0:00 to 0:08  Tamsin, screen 1: coat',
      '0:08 to 1:08  Tamsin, screen 1: dry',
      '0:08 to 0:16  Jonah, screen 1: coat',
      '0:16 to 1:16  Jonah, screen 1: dry 2',
      '0:16 to 0:24  Tamsin, screen 2: coat',
      '0:24 to 1:24  Tamsin, screen 2: dry 3',
      '1:08 to 1:18  Tamsin, screen 1: expose',
      '1:18 to 1:24  Tamsin, screen 1: wash out',
      '1:18 to 1:28  Jonah, screen 1: expose',
      '1:28 to 1:34  Jonah, screen 1: wash out',
      '1:28 to 1:38  Tamsin, screen 2: expose',
      '1:38 to 1:44  Tamsin, screen 2: wash out',
    ].join('\n'),
  },
  run: async (given) => {
    const text = await readTextFile(given.needs(SESSION), {
      what: 'session',
      field: SESSION.name,
      mostBytes: MOST_BYTES,
    })
    const { sessionFromJson } = await import('../../workflow/sessionPlanned.ts')
    const { problem, endMin } = sessionFromJson(text)
    const plan = sessionPlan(problem)
    const late = endMin === null ? [] : lateIn(plan, endMin)
    const record = { kind: 'session', ...plan, ...(late.length === 0 ? {} : { late }) }
    return { record, text: sessionText(plan, { endMin, late }) }
  },
}

type Late = Readonly<{ person: string; screen: number; endMin: number }>

/** Screens that are not done when the room closes. */
function lateIn({ tasks }: SessionPlan, endMin: number): readonly Late[] {
  const ends = new Map<string, Late>()
  for (const { person, screen, endMin: end } of tasks) {
    const key = JSON.stringify([person, screen])
    if (end > (ends.get(key)?.endMin ?? 0)) ends.set(key, { person, screen, endMin: end })
  }
  return [...ends.values()].filter((each) => each.endMin > endMin + 1e-9)
}

function sessionText(
  { finishMin, bound, proved, tasks }: SessionPlan,
  { endMin, late }: Readonly<{ endMin: number | null; late: readonly Late[] }>,
): string {
  const sure = proved ? 'and no plan is faster' : `no plan could be done before ${minutes(bound)}`
  const rows = tasks.map(
    ({ person, screen, station, machine, startMin, endMin: end }): readonly [string, string] => [
      `${minutes(startMin)} to ${minutes(end)}`,
      `${person}, screen ${screen}: ${station}${machine > 1 ? ` ${machine}` : ''}`,
    ],
  )
  return [
    `All done after ${minutes(finishMin)}, ${sure}.`,
    ...(endMin === null || late.length === 0
      ? []
      : [
          `${late.length} not done by ${minutes(endMin)}: ${late.map(({ person, screen }) => `${person}’s ${screen}`).join(', ')}.`,
        ]),
    columns(rows),
  ].join('\n')
}

/** As a clock counts from the beginning: 1:05. */
function minutes(value: number): string {
  const whole = Math.round(value)
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, '0')}`
}
