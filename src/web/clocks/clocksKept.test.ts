import { expect, test } from 'vitest'
import type { Clocks } from '../../api/clocks.ts'
import { clocksFrom, type OwnClock, runningOf, untold, withEnd, withTold } from './clocksKept.ts'

const at = (sec: number): string => new Date(Date.UTC(2026, 10, 29, 10) + 1000 * sec).toISOString()
const own: OwnClock = {
  key: 'remover-of-here',
  screen: '22',
  sec: 60,
  startedAt: at(0),
  endedAt: null,
  told: 'nothing',
}
const answer = (now: number): Clocks => ({ kind: 'clocks', now: at(now), clocks: [] })
const shown = (clocks: readonly OwnClock[], heard: Clocks | null): readonly string[] =>
  runningOf(clocks, { answer: heard, aheadMs: 0 }).map(({ key }) => key)

test('a clock is shown from its first moment; what the shop no longer has was ended elsewhere', () => {
  const [told] = withTold([own], [own])
  const known = told === undefined ? [] : [told]
  expect(shown([own], null)).toEqual([own.key])
  // the shop has it, and its last answer is from before: it stays in sight
  expect(shown(known, answer(-10))).toEqual([own.key])
  expect(shown(known, answer(30))).toEqual([])
  expect(shown([own], answer(30))).toEqual([own.key])
})

test('an end is told once, and what is kept comes back from text', () => {
  const ended = withEnd(withTold([own], [own]), { key: own.key, endedAt: at(20) })
  expect([untold([own]).length, untold(ended).length, shown(ended, null)]).toEqual([1, 1, []])
  expect(withTold(ended, ended)).toEqual([])
  expect(clocksFrom(JSON.stringify([own]))).toEqual([own])
  for (const text of [null, '', '{"a":1}', '[{"key":7}]', '[{'])
    expect(clocksFrom(text)).toEqual([])
})
