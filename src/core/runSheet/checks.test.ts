import { expect, test } from 'vitest'
import { isGaugeUsual, usualGauge } from './checks.ts'

test('a gauge is held to the middle of what was read before, so that one slip counts for nothing', () => {
  expect([usualGauge([]), usualGauge([25]), usualGauge([25, 2.5, 26])]).toEqual([null, 25, 25])
})

test('a tenth off is off, whichever way the gauge counts; where nobody read it nothing is', () => {
  const is = (value: number, usual: number | null) => isGaugeUsual(value, { usual })
  expect([is(22.5, 25), is(22.4, 25), is(27.5, 25), is(27.6, 25), is(3, null)]).toEqual([
    true,
    false,
    true,
    false,
    true,
  ])
})
