import { expect, test } from 'vitest'
import { meterQuestion } from '../../../api/lamp.ts'
import { meterOf, NO_READING, nextReading, START } from './meterDraft.ts'
import { METER_WORDS } from './meterWords.ts'

const start = { ...START, reading: '48' }

test('a dose and its readings go out in the shape of the contract', () => {
  const readings = [start, { clock: '5:10', reading: '51,5' }, NO_READING]
  const { question } = meterOf({ count: '480', readings }, 'roof')
  expect(meterQuestion.parse(question)).toEqual({
    unit: 'roof',
    count: 480,
    readings: [
      { clockSec: 0, reading: 48 },
      { clockSec: 310, reading: 51.5 },
    ],
  })
})

test('what is missing or no number is told where it stands', () => {
  const wrongOf = (count: string, readings: readonly (typeof start)[]) =>
    meterOf({ count, readings }, '').wrong
  expect(wrongOf('', [START])).toEqual({
    count: METER_WORDS.noCount,
    readings: { 0: METER_WORDS.noReading },
  })
  const cloudy = { clock: '5:10', reading: 'cloudy' }
  expect(wrongOf('480', [start, cloudy])).toEqual({
    count: null,
    readings: { 1: METER_WORDS.wrongReading('cloudy') },
  })
  expect(wrongOf('480', [start, { clock: '5:10', reading: '' }])?.readings).toEqual({
    1: METER_WORDS.half,
  })
  expect(wrongOf('480', [{ ...start, reading: '0' }])?.readings).toEqual({
    0: METER_WORDS.wrongReading('0'),
  })
})

test('the row after an answer stands at the clock that was asked for', () => {
  expect(nextReading(309.6)).toEqual({ clock: '5:10', reading: '' })
  expect(nextReading(null)).toEqual(NO_READING)
})
