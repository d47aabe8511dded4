import { expect, test } from 'vitest'
import { oursLess } from './byOurClock.ts'

const SENT = '2026-11-12T12:00:00.000Z'
const atSec = (sec: number): Date => new Date(Date.parse(SENT) + sec * 1000)

// nothing from outside is at stake here: what is held is the order of moments
test('a device that heard nothing yet is reckoned by the arrival', () => {
  expect(oursLess({ sentAt: SENT }, atSec(90))).toBe(90_000)
})

test('what slept on its way keeps the time that the device found before', () => {
  expect(oursLess({ sentAt: SENT, aheadMs: 2500 }, atSec(3600))).toBe(2500)
})

test('a device whose clock was set forward since is reckoned by the arrival, which bounds it', () => {
  expect(oursLess({ sentAt: SENT, aheadMs: 2500 }, atSec(-600))).toBe(-600_000)
})
