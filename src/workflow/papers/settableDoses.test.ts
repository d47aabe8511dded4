import fc from 'fast-check'
import { expect, test } from 'vitest'
import { counterSettings, settableDose, settableDoses } from './settableDoses.ts'

test('doses are whole from ten up, and tenths below', () => {
  // 26 · (62/26)^(k/5), by hand: 26, 30.935, 36.806, 43.793, 52.106, 62
  expect(settableDoses([26, 30.935, 36.806, 43.793, 52.106, 62])).toEqual([26, 31, 37, 44, 52, 62])
  expect(settableDoses([4.26, 9.96, 23.4])).toEqual([4.3, 10, 23])
  expect(settableDose(41.7)).toBe(42)
  expect(settableDose(0.01)).toBe(0.1)
})

test('where two would be one, all are told finer', () => {
  expect(settableDoses([20.1, 20.4, 20.72])).toEqual([20.1, 20.4, 20.7])
  expect(settableDoses([2.01, 2.04, 2.07])).toEqual([2.01, 2.04, 2.07])
  expect(() => settableDoses([20.001, 20.002])).toThrow('too close together to be set one by one')
})

test('settings are what is added, the first band seeing them all', () => {
  expect(counterSettings([62, 52, 44, 37, 31, 26])).toEqual([10, 8, 7, 6, 5, 26])
  expect(counterSettings([6.4, 4.3, 2.9])).toEqual([2.1, 1.4, 2.9])
})

test('invariant: each band sees settings that make up its dose, in counts that can be set', () => {
  const doses = fc.uniqueArray(fc.integer({ min: 11, max: 9000 }), { minLength: 3, maxLength: 12 })
  fc.assert(
    fc.property(doses, fc.boolean(), (counts, tenths) => {
      const bands = counts.map((count) => (tenths ? count / 10 : count)).sort((a, b) => b - a)
      const settings = counterSettings(bands)
      bands.forEach((dose, at) => {
        const seen = settings.slice(at).reduce((sum, setting) => sum + setting, 0)
        expect(seen).toBeCloseTo(dose, 9)
      })
      for (const setting of settings) {
        expect(setting).toBeGreaterThan(0)
        expect(Math.abs(setting * 10 - Math.round(setting * 10))).toBeLessThan(1e-9)
      }
    }),
  )
})
