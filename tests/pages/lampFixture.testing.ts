import type { Hono } from 'hono'
import {
  byMeter,
  evenness,
  lamp,
  meterQuestion,
  newEvenness,
  newLamp,
  newTiming,
} from '../../src/api/lamp.ts'
import { PATHS } from '../../src/api/paths.ts'

/** What the lamp's pages meet; all of it invented demo data, no figure here is a result. */
export type LampState = {
  lamp: 'known' | 'nothing' | 'by meter'
  told: unknown[]
}

const UNIT = { id: 'big', name: 'the big lamp' }
const HOT = 0.52
const COLD = 0.31
const TAU_SEC = 28

/** Counts after so many seconds from cold: a lamp that warms up evenly towards its hot rate. */
function counted(sec: number): number {
  return HOT * sec - (HOT - COLD) * TAU_SEC * (1 - Math.exp(-sec / TAU_SEC))
}

function secondsFor(count: number): number {
  let [low, high] = [0, 10_000]
  for (let step = 0; step < 60; step += 1) {
    const middle = (low + high) / 2
    if (counted(middle) < count) low = middle
    else high = middle
  }
  return high
}

/** Puts what the lamp and its evenness ask for on an app. */
export function mountLamp(app: Hono, state: LampState): void {
  const lampNow = (): unknown =>
    lamp.parse(
      state.lamp === 'known'
        ? known()
        : state.lamp === 'nothing'
          ? BARE
          : { ...BARE, countsIn: 'seconds', meterReading: 62 },
    )
  app.get(PATHS.lamp, (context) => context.json(lampNow()))
  app.post(PATHS.lampTimings, async (context) => {
    state.told.push(newTiming.parse(await context.req.json()))
    state.lamp = 'known'
    return context.json(lampNow(), 201)
  })
  app.post(PATHS.newLamp, async (context) => {
    state.told.push(newLamp.parse(await context.req.json()))
    state.lamp = 'nothing'
    return context.json(lampNow(), 201)
  })
  app.post(PATHS.meter, async (context) => {
    const question = meterQuestion.parse(await context.req.json())
    state.told.push(question)
    return context.json(byMeter.parse(metered(question.readings.length)))
  })
  app.get(PATHS.evenness, (context) =>
    context.json(evenness.parse(state.lamp === 'nothing' ? UNEVEN_UNKNOWN : uneven())),
  )
  app.post(PATHS.evenness, async (context) => {
    state.told.push(newEvenness.parse(await context.req.json()))
    state.lamp = 'known'
    return context.json(evenness.parse(uneven()), 201)
  })
}

function metered(readings: number): unknown {
  const isFirst = readings === 1
  const doubtful = (value: number) => {
    return { value, low: 0.9 * value, high: 1.1 * value, confidence: 0.9 }
  }
  return {
    kind: 'by meter',
    unit: UNIT,
    given: doubtful(isFirst ? 0 : 250),
    moreSec: doubtful(isFirst ? 620 : 274),
    readAgainSec: isFirst ? 310 : null,
    sentences: [isFirst ? 'Read the meter again at 5:10.' : 'No other reading is needed.'],
  }
}

const BARE = {
  kind: 'lamp',
  unit: UNIT,
  countsIn: 'light units',
  lampHours: null,
  fittedOn: null,
  timings: [],
  meterReading: null,
  warmUp: null,
  times: [],
  ageing: null,
  sentences: [],
}

function known(): unknown {
  const off = [0.3, -0.2, 0.1, -0.4, 0.2, 0.1, -0.1]
  const pairs = [15, 30, 45, 60, 90, 120, 180].map((clockSec, at) => ({
    clockSec,
    count: Math.round((counted(clockSec) + (off[at] ?? 0)) * 10) / 10,
  }))
  const hours = [20, 110, 190, 300, 390, 480]
  const at = (lampHours: number): number => 0.575 - 0.00011 * lampHours
  return {
    ...BARE,
    lampHours: 480,
    fittedOn: '2026-02-02',
    timings: [{ on: '2026-11-16', from: 'cold', pairs }],
    warmUp: {
      hotPerSec: { value: HOT, low: 0.51, high: 0.53, confidence: 0.9 },
      coldPerSec: { value: COLD, low: 0.28, high: 0.34, confidence: 0.9 },
      tauSec: { value: TAU_SEC, low: 22, high: 35, confidence: 0.9 },
      curve: Array.from({ length: 37 }, (_, step) => ({
        clockSec: step * 5,
        count: counted(step * 5),
      })),
    },
    times: [33, 42, 54, 70].map((count) => ({
      count,
      coldSec: secondsFor(count),
      hotSec: count / HOT,
      plainCount: counted(count / HOT),
    })),
    ageing: {
      points: hours.map((lampHours, index) => {
        const value = at(lampHours) + 0.006 * Math.sin(index * 2.3)
        return { lampHours, hotPerSec: value, low: value - 0.012, high: value + 0.012 }
      }),
      line: hours.map((lampHours) => ({
        lampHours,
        value: at(lampHours),
        low: at(lampHours) - 0.006,
        high: at(lampHours) + 0.006,
      })),
      replaceAtHours: { value: 1570, low: 1180, high: 2300, confidence: 0.9 },
    },
    sentences: [
      'The hot lamp gives 0.52 counts a second: 9 in 100 less than when it was new.',
      'A cold start wants 13 seconds more for 42.',
    ],
  }
}

const UNEVEN_UNKNOWN = {
  kind: 'evenness',
  unit: UNIT,
  countsIn: 'light units',
  wedge: null,
  glass: { widthMm: 1200, heightMm: 900 },
  places: [],
  grid: null,
  sentences: [],
}

function uneven(): unknown {
  const [columns, rows] = [8, 6]
  const share = (x: number, y: number): number =>
    1.04 - 0.22 * ((x - 0.45) ** 2 + (y - 0.55) ** 2) * 2
  return {
    ...UNEVEN_UNKNOWN,
    places: [
      [0.1, 0.1],
      [0.9, 0.1],
      [0.5, 0.5],
      [0.1, 0.9],
      [0.9, 0.9],
    ].map(([x = 0, y = 0]) => ({ xMm: 1200 * x, yMm: 900 * y, share: share(x, y) })),
    grid: {
      columns,
      rows,
      shares: Array.from({ length: columns * rows }, (_, at) =>
        share(((at % columns) + 0.5) / columns, (Math.floor(at / columns) + 0.5) / rows),
      ),
      sdShare: 0.04,
    },
    sentences: [
      'The far right corner gets 82 in 100 of the middle: a screen there wants 51 where 42 is meant.',
    ],
  }
}
