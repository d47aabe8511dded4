import { expect, test } from 'vitest'
import { near } from '../units/near.testing.ts'
import { perCm, um } from '../units/quantity.ts'
import { holdableTones } from './holdableTones.ts'

const WEAVE = { threadsPerCm: perCm(100), threadUm: um(40) }
const dots = (shape: 'round' | 'elliptical' | 'line', rulingPerCm: number) =>
  ({ kind: 'dot', shape, rulingPerCm, angleDeg: 22.5 }) as const

test('oracle finest-line: a dot is as wide as a pitch, an island as a pitch and a thread', () => {
  const { dotUm, islandUm } = holdableTones(dots('round', 20), WEAVE)
  expect([dotUm, islandUm]).toEqual([100, 140])
})

test('a round dot of 100 um in a cell of 500 um is π/100 of it, an island of 140 um leaves the rest', () => {
  const { least, most } = holdableTones(dots('round', 20), WEAVE)
  const exact = { within: 1e-12, because: 'the area of a circle' }
  near(least, Math.PI / 100, exact)
  near(most, 1 - Math.PI * 0.14 ** 2, exact)
})

test('lines hold from a fifth, ellipses from half as much again as round dots', () => {
  const exact = { within: 1e-12, because: 'widths over a cell' }
  near(holdableTones(dots('line', 20), WEAVE).least, 0.2, exact)
  near(holdableTones(dots('elliptical', 20), WEAVE).least, (1.5 * Math.PI) / 100, exact)
})

test('of too fine a ruling nothing is left between the palest and the fullest', () => {
  const { least, most } = holdableTones(dots('round', 75), WEAVE)
  expect(least).toBeGreaterThan(most)
})

test('scattered dots are held when one is as wide as an island, else no tone is safe', () => {
  const grains = (dotUm: number) => ({ kind: 'stochastic', seed: 3, dotUm }) as const
  expect(holdableTones(grains(150), WEAVE)).toMatchObject({ least: 0, most: 1 })
  expect(holdableTones(grains(120), WEAVE)).toMatchObject({ least: 0, most: 0.5 })
  expect(holdableTones(grains(60), WEAVE)).toMatchObject({ least: 1 })
})
