import fc from 'fast-check'
import { expect, test } from 'vitest'
import { near } from '../units/near.testing.ts'
import { um } from '../units/quantity.ts'
import { effectiveGapUm } from './contact.ts'

// Snell's law and a ruler: a ray at 8 degrees crosses 132 um of base and drifts as it would in air
// over the reduced thickness.
test('oracle film-base-index: the reduced thickness drifts a ray as the base does', () => {
  const slant = (8 * Math.PI) / 180
  const inBase = 132 * Math.tan(Math.asin(Math.sin(slant) / 1.65))
  const gap = effectiveGapUm({ gapUm: um(0), filmBaseUm: um(132), imageSide: 'away' })
  near(gap * Math.tan(slant), inBase, { within: 0.01 * inBase, because: 'small slants, 8 degrees' })
})

test('a film the right way round has the air gap alone', () => {
  const gap = effectiveGapUm({ gapUm: um(7), filmBaseUm: um(125), imageSide: 'against emulsion' })
  expect(gap).toBe(7)
})

test('a base thicker than a plate is refused by name', () => {
  const contact = { gapUm: um(7), filmBaseUm: um(3000), imageSide: 'away' } as const
  expect(() => effectiveGapUm(contact)).toThrow('filmBaseUm: expected 0 to 1000 um, got 3000')
  expect(() => effectiveGapUm({ ...contact, gapUm: um(Number.NaN) })).toThrow('gapUm')
})

test('invariant: the wrong way round is never the smaller gap, and both grow with the air', () => {
  const length = fc.double({ min: 0, max: 900, noNaN: true })
  fc.assert(
    fc.property(length, length, (gap, base) => {
      const film = { gapUm: um(gap), filmBaseUm: um(base) }
      const right = effectiveGapUm({ ...film, imageSide: 'against emulsion' })
      const wrong = effectiveGapUm({ ...film, imageSide: 'away' })
      expect(wrong).toBeGreaterThanOrEqual(right)
      expect(wrong - right).toBeLessThanOrEqual(base)
      const thicker = effectiveGapUm({ ...film, gapUm: um(gap + 13), imageSide: 'away' })
      near(thicker - wrong, 13, { within: 1e-9, because: 'rounding' })
    }),
    { seed: 22 },
  )
})
