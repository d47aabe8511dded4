import { expect, test } from 'vitest'
import { lightWrinkles, type Residue } from './lightWrinkles.ts'

const SIZE = { widthPx: 200, heightPx: 260 }

/** Places all over a sheet, as far as they are wanted. */
function places(of: (u: number, v: number) => number | null): readonly Residue[] {
  return Array.from({ length: 60 * 80 }, (_, at) => {
    const [u, v] = [((at % 60) + 0.5) / 30 - 1, (Math.floor(at / 60) + 0.5) / 40 - 1]
    const log = of(u, v)
    return log === null ? [] : [{ u, v, log }]
  }).flat()
}

/** Four tubes behind opal glass: a few hundredths of density, crest to trough. */
const waves = (_: number, v: number): number => 0.012 * Math.cos(4 * Math.PI * v)

test('half of the waves of tubes and more are followed between marks, up to the rim', () => {
  const seen = places((u, v) => (((10 * u) | 0) % 2 === 0 && v * v < 0.9 ? waves(u, v) : -0.4))
  const wrinkles = lightWrinkles(seen, SIZE)
  for (const [u, v] of [
    [0, 0],
    [0.4, 0.25],
    [-0.9, 0.5],
    [0.95, -0.75],
    [0.3, 0.9],
  ] as const) {
    expect(Math.abs(wrinkles(u, v) - waves(u, v))).toBeLessThan(0.006)
  }
})

test('a wash as pale as 0.05 and a base as thin are no wrinkles, nor is there one where nothing is clear', () => {
  const washed = lightWrinkles(
    places((u) => (u > 0 ? -0.05 : 0)),
    SIZE,
  )
  expect(washed(0.5, 0)).toBe(0)
  expect(lightWrinkles([], SIZE)(0.2, 0.3)).toBe(0)
})
