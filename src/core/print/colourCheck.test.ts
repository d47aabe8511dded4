import fc from 'fast-check'
import { expect, test } from 'vitest'
import { ciede2000 } from '../colour/ciede2000.ts'
import type { Lab, Srgb } from '../colour/space.ts'
import { labFromSrgb, srgbFromLab, storedLight } from '../colour/srgb.ts'
import { linearLight } from '../inspection/linearLight.ts'
import { near } from '../units/near.testing.ts'
import { colourFromPhoto, colourVerdict, measuredColour } from './colourCheck.ts'

test('readings of a patch: their mean, and more of them leave less doubt', () => {
  const readings: readonly Lab[] = [
    [50, 10, 20],
    [52, 12, 18],
    [51, 8, 22],
  ]
  const three = measuredColour(readings)
  expect(three.lab).toEqual([51, 10, 20])
  const six = measuredColour([...readings, ...readings])
  expect(six.doubtDeltaE).toBeLessThan(three.doubtDeltaE)
  expect(measuredColour([[50, 10, 20]]).doubtDeltaE).toBeGreaterThan(1)
  expect(() => measuredColour([])).toThrow('at least 1')
})

test('oracle grey-card: the colour of the light drops out, whatever it was', () => {
  const lamp = fc.record({
    red: fc.double({ min: 0.5, max: 1, noNaN: true }),
    green: fc.double({ min: 0.5, max: 1, noNaN: true }),
    blue: fc.double({ min: 0.5, max: 1, noNaN: true }),
  })
  const truth: Lab = [62, 12, 28]
  fc.assert(
    fc.property(lamp, ({ red, green, blue }) => {
      const under = ([r, g, b]: Srgb): Srgb => [
        storedLight(linearLight(r) * red),
        storedLight(linearLight(g) * green),
        storedLight(linearLight(b) * blue),
      ]
      const seen = colourFromPhoto(
        { patch: under(srgbFromLab(truth)), card: under(srgbFromLab([49.5, 0, 0])) },
        { cardL: 49.5 },
      )
      near(ciede2000(seen.lab, truth), 0, { within: 0.05, because: 'two whites of D50, rounded' })
      expect(seen.doubtDeltaE).toBeGreaterThanOrEqual(8)
    }),
    { seed: 8, numRuns: 60 },
  )
})

test('a burnt-out patch is doubted more, and a burnt-out card is refused', () => {
  const card: Srgb = [0.46, 0.46, 0.46]
  const burnt = colourFromPhoto({ patch: [1, 0.8, 0.2], card }, { cardL: 49.5 })
  expect(burnt.doubtDeltaE).toBeGreaterThan(11)
  expect(() => colourFromPhoto({ patch: card, card: [1, 1, 1] }, { cardL: 49.5 })).toThrow('card')
})

test('agrees, differs, or cannot be told: the doubt decides', () => {
  const wanted: Lab = [62, 1, 6]
  const near1 = labFromSrgb(srgbFromLab([62.5, 1, 6]))
  expect(colourVerdict({ lab: near1, doubtDeltaE: 1 }, { wanted }).verdict).toBe('agrees')
  expect(colourVerdict({ lab: near1, doubtDeltaE: 8 }, { wanted }).verdict).toBe('cannot tell')
  expect(colourVerdict({ lab: [40, 30, 6], doubtDeltaE: 8 }, { wanted }).verdict).toBe('differs')
})
