import type { Hono } from 'hono'
import type { Day } from '../../src/api/day.ts'
import type { Trouble, TroubleTable } from '../../src/api/diagnosis.ts'
import { PATHS } from '../../src/api/paths.ts'
import type { Things } from '../../src/api/things.ts'
import { SIGN_NAMES } from '../../src/core/diagnosis/signNames.ts'
import { SIGNS } from '../../src/core/diagnosis/signs.ts'
import { livePlan } from '../../src/core/session/live.ts'

const MIN_MS = 60_000
const STATIONS = [
  { name: 'coating', machines: 1, minutes: 8, people: true },
  { name: 'drying', machines: 4, minutes: 40, people: false },
  { name: 'light', machines: 1, minutes: 9, people: true },
  { name: 'water', machines: 2, minutes: 14, people: true },
  { name: 'drying again', machines: 2, minutes: 25, people: false },
]
const PEOPLE = ['Bea', 'Dov', 'Ilse', 'Wen'].map((name) => ({ name, screens: 1, arriveMin: 0 }))

/** A class an hour and a half old, with a screen that is made again. Invented. */
function dayNow(): Day {
  const problem = { stations: STATIONS, people: PEOPLE, againFrom: 2 }
  const { tasks, finishMin, proved, moved } = livePlan(problem, [
    { kind: 'failed', person: 'Bea', screen: 1, atMin: 66 },
  ])
  const begins = Date.now() - 82 * MIN_MS
  return {
    kind: 'day',
    demo: true,
    now: new Date().toISOString(),
    plan: {
      id: 'plan',
      title: 'Thursday, second-years',
      beginsAt: new Date(begins).toISOString(),
      closesAt: new Date(begins + 240 * MIN_MS).toISOString(),
      people: PEOPLE.length,
      screens: PEOPLE.length,
      stations: STATIONS,
      againFrom: 2,
      tasks: [...tasks],
      finishMin,
      lastAttendedMin: finishMin - 25,
      proved,
      withTwoMoreMin: finishMin + 40,
      lastStartMin: 120,
      moved: [...moved],
    },
    usual: { stations: STATIONS, againFrom: 2, people: [] },
    due: [{ tag: '22', owner: 'Demo Tam', until: new Date().toISOString() }],
    waits: ['One film is waited for.'],
  }
}

const THINGS: Things = {
  kind: 'things',
  demo: true,
  groups: [
    {
      name: 'Leftover inks',
      sentences: [
        {
          id: 'green',
          says: 'Pond green: 510 g, shelf 3.',
          look: true,
          facts: ['Weighed on 2026-11-28.'],
          to: null,
          paper: null,
          thing: {
            id: 'green',
            told: {
              kind: 'leftover',
              name: 'pond green',
              facts: { grams: 510, place: 'shelf 3', lab: [48, -22, 14] },
            },
          },
        },
      ],
    },
  ],
  incidents: [
    {
      id: 'i',
      on: '2026-11-10',
      place: 'the lamp',
      what: 'A lid fell.',
      done: null,
      hurt: 'nearly',
    },
  ],
}

const TROUBLE: Trouble = {
  kind: 'trouble',
  demo: true,
  signs: SIGN_NAMES.map((name) => ({
    name,
    where: SIGNS[name].where,
    says: SIGNS[name].says,
    isTest: SIGNS[name].test !== null,
  })),
  yes: ['thin marks shut'],
  no: [],
  told: [{ sign: 'damp air', is: 'no', because: 'The room was noted at 47 % humidity.' }],
  ranked: [
    {
      cause: 'weak film',
      says: 'The film lets light through its marks',
      chance: 0.6,
      now: 'Wash once more, softly.',
      next: 'Go over the pale marks.',
      for: ['Thin or pale marks stay shut.'],
      against: [],
    },
  ],
  test: { sign: 'film pale', how: 'Hold the film against a lamp.', minutes: 1, yes: 'A', no: 'B' },
  asks: [{ sign: 'dried hot', says: 'It dried in the heat.' }],
  learnedFrom: 0,
  runs: [],
  causes: [{ id: 'weak film', name: 'The film lets light through its marks' }],
  past: [{ id: 'f', on: '2026-11-20', guessed: 'Too much light', cause: null }],
}

const TABLE: TroubleTable = {
  kind: 'trouble table',
  demo: true,
  learnedFrom: 1,
  causes: [
    {
      cause: 'weak film',
      says: 'The film lets light through its marks',
      share: 0.1,
      shareNow: 0.15,
      now: 'Wash once more, softly.',
      next: 'Go over the pale marks.',
      isUsed: true,
      isSeen: false,
      row: 'row',
      isAdded: false,
      confirmed: 1,
      links: [
        {
          sign: 'film pale',
          says: 'Light comes through the film’s black.',
          chance: 0.85,
          chanceNow: 0.87,
          isSeen: true,
          row: 'link',
        },
      ],
    },
  ],
  signs: [
    {
      sign: 'film pale',
      where: 'known',
      says: 'Light comes through the film’s black.',
      elsewhere: 0.1,
      test: { how: 'Hold the film against a lamp.', minutes: 1 },
      row: null,
      isAdded: false,
    },
  ],
}

/** The day, the room and failures, as a shop in the middle of its work has them. */
export function mountRoom(app: Hono): void {
  app.get(PATHS.day, (context) => context.json(dayNow()))
  app.get(PATHS.things, (context) => context.json(THINGS))
  app.get(PATHS.trouble, (context) => context.json(TROUBLE))
  app.get(PATHS.troubleTable, (context) => context.json(TABLE))
}
