import { expect, test } from 'vitest'
import type { Run, RunEventTold } from '../../api/bench.ts'
import { eventsOf, logFrom, withAnswer, withEvent } from './runLog.ts'

const event = (key: string, at: string): RunEventTold => ({
  key,
  kind: 'done',
  step: 'glass',
  cause: null,
  value: null,
  second: null,
  at,
})
const run = (events: readonly RunEventTold[], now: string): Run => ({
  kind: 'run',
  id: 'r',
  demo: true,
  steps: [],
  events: [...events],
  notTaken: null,
  film: null,
  layer: null,
  about: {
    subject: 'pen',
    screen: null,
    unit: 'lamp',
    countsIn: 'seconds',
    litSec: null,
    dose: { value: 61, low: 52, high: 73 },
  },
  begunAt: now,
  endedAt: null,
  now,
  readings: {
    wedge: false,
    outcome: false,
  },
})

test('what happened without a connection counts at once, by the shop’s clock, and goes once it is known', () => {
  const shop = '2026-11-28T10:00:00.000Z'
  // the device's clock is 7 minutes slow
  const log = withAnswer(null, {
    run: run([], shop),
    came: { nowMs: Date.parse('2026-11-28T09:53:00.000Z'), tookMs: 0 },
  })
  const told = withEvent(log, event('one-of-two', '2026-11-28T09:54:00.000Z'))
  const two = withEvent(told, event('two-of-two', '2026-11-28T09:55:00.000Z'))
  expect(eventsOf(two).map(({ atMs }) => new Date(atMs).toISOString())).toEqual([
    '2026-11-28T10:01:00.000Z',
    '2026-11-28T10:02:00.000Z',
  ])
  const known = event('one-of-two', '2026-11-28T10:01:00.000Z')
  const after = withAnswer(two, {
    run: run([known], shop),
    came: { nowMs: Date.parse(shop), tookMs: 0 },
  })
  expect(after.own.map(({ key }) => key)).toEqual(['two-of-two'])
  expect(eventsOf(after)).toHaveLength(2)
})

test('a log is kept as text; what is none is left', () => {
  const came = { nowMs: 5, tookMs: 0 }
  const log = withAnswer(null, { run: run([], '2026-11-28T10:00:00.000Z'), came })
  expect(logFrom(JSON.stringify(log))).toEqual(log)
  for (const text of [null, '', '{"own":[]}', JSON.stringify(log).slice(0, 40)]) {
    expect(logFrom(text)).toBeNull()
  }
})
