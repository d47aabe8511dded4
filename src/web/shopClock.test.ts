import { expect, test } from 'vitest'
import { aheadOf } from './shopClock.ts'

const at = Date.parse('2026-11-28T10:00:00.000Z')

test('the first answer is taken at the middle of its way, and one that came sooner narrows it', () => {
  const first = aheadOf(at + 7000, { came: { nowMs: at + 800, tookMs: 800 }, before: null })
  expect(first).toBe(6600)
  // the shop's clock is 7000 ms ahead: the second answer was on its way for 20 ms
  const second = aheadOf(at + 17_010, { came: { nowMs: at + 10_020, tookMs: 20 }, before: first })
  expect(second).toBe(6990)
})

test('one that slept on its way does not move the clock, and bounds it where the clock was changed', () => {
  // asked at 60 s, answered at once by the shop, here only at 72 s
  const came = { nowMs: at + 72_000, tookMs: 12_000 }
  expect(aheadOf(at + 67_000, { came, before: 7000 })).toBe(7000)
  expect(aheadOf(at + 67_000, { came, before: 3_600_000 })).toBe(7000)
  expect(aheadOf(at + 67_000, { came, before: -3_600_000 })).toBe(-5000)
  expect(aheadOf(at + 67_000, { came, before: null })).toBe(1000)
})
