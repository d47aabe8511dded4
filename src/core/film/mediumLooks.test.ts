import fc from 'fast-check'
import { expect, test } from 'vitest'
import { density } from '../units/quantity.ts'
import { MEDIA } from './media.ts'
import { likelyMedia, type MarksLook } from './mediumLooks.ts'

const EVEN: MarksLook = {
  density: 1.9,
  densitySd: 0.03,
  isDenser: false,
  grainShare: 0.01,
  rangeShare: 0.09,
}

test('tooth tells pencil from a pen of the same density', () => {
  const grey = { ...EVEN, density: 1 }
  expect(likelyMedia({ ...grey, grainShare: 0.17, rangeShare: 0.7 }, MEDIA)[0]?.name).toBe(
    'soft pencil',
  )
  expect(likelyMedia({ ...grey, grainShare: 0.03, rangeShare: 0.2 }, MEDIA)[0]?.name).toBe(
    'fine pigment pen',
  )
})

test('what is denser than a photo tells may be any dense medium, and no pale one', () => {
  const media = likelyMedia({ ...EVEN, density: 2.2, isDenser: true }, MEDIA)
  const [first, second] = media
  expect([first?.name, second?.name].sort()).toEqual(['cut masking film', 'inkjet film'])
  expect(Math.abs((first?.chance ?? 0) - (second?.chance ?? 0))).toBeLessThan(0.1)
  expect(media.find(({ name }) => name === 'soft pencil')?.chance).toBeLessThan(0.01)
})

test('a medium of the shop’s own is found by its density alone', () => {
  const own = {
    name: 'Nadia’s tar',
    weakest: { mean: density(2.6), sd: density(0.2) },
    solid: { low: 3.1, high: 3.4 },
  }
  const seen = { ...EVEN, density: 3.2, grainShare: 0.05, rangeShare: 0.2 }
  expect(likelyMedia(seen, [...MEDIA, own])[0]?.name).toBe(own.name)
})

test('a medium of any name counts by its own densities, also one that code has words of its own for', () => {
  const named = (name: string) => ({
    name,
    weakest: { mean: density(1.1), sd: density(0.2) },
    solid: null,
  })
  const [plain, odd] = ['sepia wash', 'constructor'].map((name) =>
    likelyMedia(EVEN, [...MEDIA, named(name)]).find((each) => each.name === name),
  )
  expect(odd?.chance).toBeGreaterThan(0)
  expect(odd?.chance).toBe(plain?.chance)
})

test('invariant: chances are of all media together, the likeliest first; a surer photo tells no less', () => {
  const share = fc.double({ min: 0, max: 1, noNaN: true })
  const from = (min: number, max: number) => fc.double({ min, max, noNaN: true })
  fc.assert(
    fc.property(from(0.2, 3), from(0.01, 0.3), share, share, (middle, sd, grain, range) => {
      const seen = {
        density: middle,
        densitySd: sd,
        isDenser: false,
        grainShare: grain,
        rangeShare: range,
      }
      const chances = likelyMedia(seen, MEDIA).map(({ chance }) => chance)
      expect(chances.reduce((sum, chance) => sum + chance, 0)).toBeCloseTo(1, 9)
      expect(chances).toEqual(chances.toSorted((a, b) => b - a))
    }),
  )
})
