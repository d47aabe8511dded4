import fc from 'fast-check'
import { expect, test } from 'vitest'
import { near } from '../units/near.testing.ts'
import { density } from '../units/quantity.ts'
import { baseDensityFactor, densityFromTransmission, transmissionFromDensity } from './density.ts'

test('oracle iso5-1: half the light is 0.301029996, a hundredth 2, a thousandth 3', () => {
  const digits = { within: 5e-10, because: 'printed to 9 decimals' }
  near(densityFromTransmission(0.5), 0.301029996, digits)
  near(densityFromTransmission(0.01), 2, digits)
  near(densityFromTransmission(0.001), 3, digits)
})

test('oracle iso5-1: drafting film of 0.15 asks for 1.412538 times the dose', () => {
  near(baseDensityFactor(density(0.15)), 1.412538, { within: 5e-7, because: '6 decimals' })
  expect(baseDensityFactor(density(0))).toBe(1)
})

test('no light at all, NaN and a negative base are refused by name', () => {
  expect(() => densityFromTransmission(0)).toThrow('transmission: expected')
  expect(() => transmissionFromDensity(density(Number.NaN))).toThrow('got NaN')
  expect(() => baseDensityFactor(density(-0.2))).toThrow(
    'filmBaseDensity: expected 0 to 3 D, got -0.2',
  )
})

test('clear film has density 0, not minus 0', () => {
  expect(Object.is(densityFromTransmission(1), 0)).toBe(true)
})

test('invariant: densities of layers add as their transmissions multiply, and come back', () => {
  const layer = fc.double({ min: 0, max: 4, noNaN: true })
  fc.assert(
    fc.property(layer, layer, (one, other) => {
      const both = transmissionFromDensity(density(one)) * transmissionFromDensity(density(other))
      near(densityFromTransmission(both), one + other, { within: 1e-12, because: 'rounding' })
    }),
    { seed: 21 },
  )
})
