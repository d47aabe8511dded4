import fc from 'fast-check'
import { expect, test } from 'vitest'
import { near } from '../units/near.testing.ts'
import { density, lu } from '../units/quantity.ts'
import { readWedge, USUAL_WEDGE, type WedgeReading, wedgeTransmissions } from './wedge.ts'

const read = (dose: number, last: number, target: number, increment = 0.15): WedgeReading =>
  readWedge({
    doseLu: lu(dose),
    lastSolidStep: last,
    targetStep: target,
    increment: density(increment),
  })

// Step, density, transmission, exposure multiplier when this step held and step 7 is wanted.
const TABLE = [
  [1, 0.05, 0.891251, 7.9433],
  [2, 0.2, 0.630957, 5.6234],
  [3, 0.35, 0.446684, 3.9811],
  [4, 0.5, 0.316228, 2.8184],
  [5, 0.65, 0.223872, 1.9953],
  [6, 0.8, 0.158489, 1.4125],
  [7, 0.95, 0.112202, 1],
  [8, 1.1, 0.079433, 0.7079],
  [9, 1.25, 0.056234, 0.5012],
  [10, 1.4, 0.039811, 0.3548],
  [11, 1.55, 0.028184, 0.2512],
  [12, 1.7, 0.019953, 0.1778],
  [13, 1.85, 0.014125, 0.1259],
  [14, 2, 0.01, 0.0891],
  [15, 2.15, 0.007079, 0.0631],
  [16, 2.3, 0.005012, 0.0447],
  [17, 2.45, 0.003548, 0.0316],
  [18, 2.6, 0.002512, 0.0224],
  [19, 2.75, 0.001778, 0.0158],
  [20, 2.9, 0.001259, 0.0112],
  [21, 3.05, 0.000891, 0.0079],
] as const

test.each(TABLE)('oracle step-wedge: step %d has %d D, T %d, and multiplies by %d', (...row) => {
  const [step, stepDensity, transmission, multiplier] = row
  const shares = wedgeTransmissions(USUAL_WEDGE)
  expect(shares).toHaveLength(21)
  near(shares[step - 1], transmission, { within: 5.1e-7, because: 'six decimals' })
  near(-Math.log10(shares[step - 1]), stepDensity, { within: 1e-12, because: 'rounding' })
  near(read(60, step, 7).factor, multiplier, { within: 5.1e-5, because: 'four decimals' })
})

test('oracle step-wedge: two half stops are nearly one stop, 1.9953 against 2', () => {
  near(read(60, 5, 7).factor, 2, { within: 0.005, because: 'a step is 0.15 D, half a stop 0.1505' })
})

test('oracle wedge-noise: 0.164 D, a factor 1.46, for steps of 0.15; 0.095 D for 0.05', () => {
  const { value, high } = read(60, 5, 7).nextDoseLu
  near(Math.log10(high / value), 0.164, { within: 6e-4, because: '0.1645, printed cut short' })
  near(high / value, 1.46, { within: 0.005, because: 'two decimals' })
  const fine = read(60, 5, 7, 0.05).nextDoseLu
  near(Math.log10(fine.value / fine.low), 0.095, { within: 5e-4, because: 'three decimals' })
})

test('a dose of 60 that held step 5 becomes 120 or so for step 7, in a 90 % range', () => {
  const { kind, nextDoseLu } = read(60, 5, 7)
  expect(kind).toBe('wedge')
  near(nextDoseLu.value, 60 * 1.9953, { within: 60 * 5e-5, because: 'four decimals' })
  expect(nextDoseLu.confidence).toBe(0.9)
})

test('what cannot be is refused by name', () => {
  expect(() => read(60, Number.NaN, 7)).toThrow('lastSolidStep: expected a whole number')
  expect(() => read(60, 6.5, 7)).toThrow('got 6.5')
  expect(() => read(60, 5, 0)).toThrow('targetStep')
  expect(() => read(60, 5, 7, 15)).toThrow('increment: expected 0.01 to 0.6 D, got 15')
  expect(() => read(0, 5, 7)).toThrow('doseLu: expected 0.01 to 1000000 lu, got 0')
  expect(() => wedgeTransmissions({ ...USUAL_WEDGE, steps: 2.5 })).toThrow('steps')
  expect(() => wedgeTransmissions({ ...USUAL_WEDGE, firstDensity: density(-1) })).toThrow('first')
})

test('invariant: behind the target step the next dose is what the last solid step had', () => {
  const step = fc.integer({ min: 1, max: 21 })
  const dose = fc.double({ min: 0.1, max: 900, noNaN: true })
  const increments = fc.double({ min: 0.05, max: 0.3, noNaN: true })
  fc.assert(
    fc.property(step, step, dose, increments, (last, target, doseLu, increment) => {
      const through = wedgeTransmissions({ ...USUAL_WEDGE, increment: density(increment) })
      const { nextDoseLu } = read(doseLu, last, target, increment)
      const ratio = (nextDoseLu.value * through[target - 1]) / (doseLu * through[last - 1])
      near(ratio, 1, { within: 1e-12, because: 'powers of ten' })
      near(nextDoseLu.low * nextDoseLu.high, nextDoseLu.value ** 2, {
        within: 1e-9 * nextDoseLu.value ** 2,
        because: 'the range is even in steps',
      })
    }),
    { seed: 51 },
  )
})
