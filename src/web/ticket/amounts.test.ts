import fc from 'fast-check'
import { expect, test } from 'vitest'
import { near } from '../../core/units/near.testing.ts'
import { amountEntry, amountWritten, type Measure } from './amounts.ts'

test('an amount is in the page’s units where none is said, else as said', () => {
  expect(amountWritten('420', 'length', 'metric')).toBe(420)
  expect(amountWritten('16 in', 'length', 'metric')).toBe(406.4)
  expect(amountWritten('16', 'length', 'imperial')).toBe(406.4)
  expect(amountWritten('2,5 cm', 'length', 'imperial')).toBe(25)
  // the international pound is 453.59237 g, an ounce a sixteenth of it (by treaty of 1959)
  near(amountWritten('8 oz', 'weight', 'metric') ?? 0, 226.796, { within: 1e-3, because: 'grams' })
  expect(amountWritten('1.2 kg', 'weight', 'imperial')).toBe(1200)
  near(amountWritten('10', 'pricePerWeight', 'imperial') ?? 0, 22.0462, {
    within: 1e-4,
    because: 'a kilogram is 2.20462 pounds',
  })
})

test('what is no amount, or of another kind, is none', () => {
  for (const text of ['', '42o', '-3', '3 g', '1/2', '16 inches', '9999999']) {
    expect([text, amountWritten(text, 'length', 'metric')]).toEqual([text, null])
  }
  expect(amountWritten('3 mm', 'plain', 'metric')).toBeNull()
})

test('invariant: what is shown is read back as it was, within what is shown', () => {
  const measures: readonly Measure[] = ['length', 'weight', 'volume', 'pricePerWeight', 'plain']
  fc.assert(
    fc.property(
      fc.constantFrom(...measures),
      fc.constantFrom('metric' as const, 'imperial' as const),
      fc.double({ min: 0, max: 5000, noNaN: true }),
      (measure, units, value) => {
        const back = amountWritten(amountEntry(value, measure, units), measure, units)
        near(back ?? -1, value, { within: 0.02, because: 'a thousandth of the largest unit' })
      },
    ),
  )
})
