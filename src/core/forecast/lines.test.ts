import fc from 'fast-check'
import { expect, test } from 'vitest'
import { near } from '../units/near.testing.ts'
import { edgeInsetUm, smallestLines } from './lines.ts'

/** erf by Simpson's rule on its integral: independent of anything in the code under test. */
function erf(x: number): number {
  const cells = 2000
  const step = x / cells
  let sum = 0
  for (let at = 0; at <= cells; at += 1) {
    const weight = at === 0 || at === cells ? 1 : at % 2 === 1 ? 4 : 2
    sum += weight * Math.exp(-((at * step) ** 2))
  }
  return ((2 / Math.sqrt(Math.PI)) * sum * step) / 3
}

/** Inverse of the normal distribution by halving on erf. */
function probit(p: number): number {
  let [low, high] = [-8, 8]
  for (let round = 0; round < 60; round += 1) {
    const middle = (low + high) / 2
    if (0.5 * (1 + erf(middle / Math.SQRT2)) < p) low = middle
    else high = middle
  }
  return (low + high) / 2
}

const sigma = 23
const gaussian = {
  strip: (half: number) => erf(half / (Math.SQRT2 * sigma)),
  reachUm: 8 * sigma,
}

test('oracle line-centres: an edge moves by sigma Φ⁻¹((1 − Hs/H)/(1 − 10^−D)) into the image', () => {
  for (const [density, doseOverSkin] of [
    [1.7, 4],
    [3.1, 1.6],
    [0.9, 6.5],
  ] as const) {
    const solid = 10 ** -density
    const inset = edgeInsetUm({ solid, ...gaussian }, { skin: 1 / doseOverSkin, hold: 1, full: 1 })
    const moved = sigma * probit((1 - 1 / doseOverSkin) / (1 - solid))
    near(inset ?? Number.NaN, moved, { within: 1e-5, because: 'both ends by halving' })
  }
})

test('oracle line-centres: the narrowest open and closed lines meet their centre conditions', () => {
  const [density, dose, skin, full] = [2.2, 71, 9, 48]
  const solid = 10 ** -density
  const lines = smallestLines(
    { solid, ...gaussian },
    { skin: skin / dose, hold: 12 / dose, full: full / dose },
  )
  const open = lines.openLineUm ?? Number.NaN
  near(dose * (1 - (1 - solid) * erf(open / (2 * Math.SQRT2 * sigma))), skin, {
    within: 1e-4,
    because: 'H(1 − (1 − 10^−D) erf(w/(2√2σ))) = Hs',
  })
  const closed = lines.closedLineUm ?? Number.NaN
  const share = erf(closed / (2 * Math.SQRT2 * sigma))
  near(dose * (solid + (1 - solid) * share), full, {
    within: 1e-4,
    because: 'H erf(w/(2√2σ)) ≥ threshold, with what the solid lets through',
  })
})

test('where nothing can open or close there is no line, and where everything does it has no width', () => {
  const film = { solid: 10 ** -1.1, ...gaussian }
  expect(smallestLines(film, { skin: 0.05, hold: 0.1, full: 1.2 })).toEqual({
    openLineUm: null,
    halfOpenLineUm: null,
    closedLineUm: null,
  })
  expect(smallestLines(film, { skin: 1.4, hold: 2, full: 3 }).openLineUm).toBe(0)
  expect(edgeInsetUm(film, { skin: 0.05, hold: 1, full: 1 })).toBe(null)
})

test('invariant: half a line opens only when its middle does, and more dose asks for a wider line', () => {
  const values = fc.record({
    density: fc.double({ min: 1.5, max: 4, noNaN: true }),
    skin: fc.double({ min: 0.05, max: 0.9, noNaN: true }),
  })
  fc.assert(
    fc.property(values, ({ density, skin }) => {
      const film = { solid: 10 ** -density, ...gaussian }
      const at = (limit: number) => smallestLines(film, { skin: limit, hold: 1, full: 1 })
      const now = at(skin)
      const more = at(skin * 0.9)
      expect(now.openLineUm).not.toBe(null)
      expect(now.halfOpenLineUm ?? Infinity).toBeGreaterThanOrEqual(now.openLineUm ?? 0)
      expect(more.openLineUm ?? Infinity).toBeGreaterThanOrEqual(now.openLineUm ?? 0)
    }),
    { seed: 4, numRuns: 25 },
  )
})

// By hand: a solid of density 1 at ten times the skin dose lets just the skin dose through, and open is less.
test('where the solid lets just the skin dose through no line opens', () => {
  const limits = { skin: 6 / 60, hold: 0.2, full: 0.8 }
  const { openLineUm, halfOpenLineUm } = smallestLines({ solid: 10 ** -1, ...gaussian }, limits)
  expect([openLineUm, halfOpenLineUm]).toEqual([null, null])
})
