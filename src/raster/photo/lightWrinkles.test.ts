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

test('of the waves of tubes half is taken out and more, also between marks and at the rim', () => {
  const seen = places((u, v) => (((10 * u) | 0) % 2 === 0 && v * v < 0.9 ? waves(u, v) : -0.4))
  const wrinkles = lightWrinkles(seen, SIZE)
  const left = places((u, v) => (wrinkles(u, v) - waves(u, v)) ** 2)
  const whole = places((u, v) => waves(u, v) ** 2)
  const sum = (list: readonly Residue[]): number => list.reduce((all, { log }) => all + log, 0)
  expect(Math.sqrt(sum(left) / sum(whole))).toBeLessThan(0.5)
})

test('a wash as pale as 0.05 and a base as thin are no wrinkles, nor is there one where nothing is clear', () => {
  const washed = lightWrinkles(
    places((u) => (u > 0 ? -0.05 : 0)),
    SIZE,
  )
  expect(washed(0.5, 0)).toBe(0)
  expect(lightWrinkles([], SIZE)(0.2, 0.3)).toBe(0)
})
