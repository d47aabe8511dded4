import { expect, test } from 'vitest'
import type { FilmForecast } from '../../api/films.ts'
import { filmCloth, holdsFromLu, screensInTenAt } from './filmCloth.ts'

const FORECAST: FilmForecast = {
  kind: 'film forecast',
  id: 'f',
  status: 'ready',
  progressShare: 1,
  message: null,
  pyramid: null,
  gelDoseLu: 20,
  holdDoseLu: 36,
  throughDoseLu: 160,
  findings: [],
  along: [30, 44, 61],
}

test('before Light has answered the best estimates stand without doubt', () => {
  const cloth = filmCloth(FORECAST, null)
  expect(cloth.along).toEqual([30, 44, 61])
  expect(cloth.lowLu).toBeLessThan(36)
  expect(cloth.highLu).toBeGreaterThan(160)
  expect(holdsFromLu(cloth)).toBeGreaterThanOrEqual(36)
  expect(holdsFromLu(cloth)).toBeLessThan(41)
})

test('Light’s doubt about the ground is kept, the threads along are the film’s own', () => {
  const light = { ...filmCloth(FORECAST, null), lowLu: 22, highLu: 78, along: [1, 2] }
  expect(filmCloth(FORECAST, light)).toEqual({ ...light, along: [30, 44, 61] })
})

test('screens in ten follow the chances between their doses', () => {
  const good = [
    { doseLu: 20, chance: 0 },
    { doseLu: 40, chance: 0.8 },
    { doseLu: 80, chance: 0.2 },
  ]
  const cloth = { lowLu: 20, highLu: 80, along: [], across: [], good, woven: [] }
  expect([20, 28.3, 40, 56.6, 80, 500].map((doseLu) => screensInTenAt(cloth, doseLu))).toEqual([
    0, 4, 8, 5, 2, 2,
  ])
  expect(holdsFromLu(cloth)).toBe(80)
})
