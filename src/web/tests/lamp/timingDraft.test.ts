import { expect, test } from 'vitest'
import { newTiming } from '../../../api/lamp.ts'
import { LAMP_WORDS } from './lampWords.ts'
import { NO_TIMING, timingOf } from './timingDraft.ts'

const PAIRS = [
  { clock: '0:30', count: '11,5' },
  { clock: '', count: '' },
  { clock: '90', count: '41' },
]

test('a timing goes out in the shape of the contract, in the order of the clock', () => {
  const draft = { ...NO_TIMING, on: '2026-11-16', lampHours: '480', pairs: PAIRS.toReversed() }
  const { timing } = timingOf(draft, 'big')
  expect(newTiming.parse(timing)).toEqual({
    from: 'cold',
    unit: 'big',
    on: '2026-11-16',
    lampHours: 480,
    pairs: [
      { clockSec: 30, count: 11.5 },
      { clockSec: 90, count: 41 },
    ],
  })
})

test('half a pair, a counter that falls and a single pair are told as what they are', () => {
  const wrongOf = (pairs: typeof PAIRS) => timingOf({ ...NO_TIMING, pairs }, '').wrong
  expect(wrongOf([...PAIRS, { clock: '2:00', count: '' }])?.pairs).toEqual({ 3: LAMP_WORDS.half })
  expect(wrongOf([...PAIRS, { clock: '2:00', count: '40' }])?.whole).toBe(LAMP_WORDS.falling)
  expect(wrongOf(PAIRS.slice(0, 1))?.whole).toBe(LAMP_WORDS.tooFew)
  expect(wrongOf([...PAIRS, { clock: '2:99', count: '50' }])?.pairs[3]).toContain('“2:99”')
})
