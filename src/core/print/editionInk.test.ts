import { expect, test } from 'vitest'
import { fabricGeometry, weaveNamed } from '../fabric/geometry.ts'
import { near } from '../units/near.testing.ts'
import { share, um } from '../units/quantity.ts'
import { editionInk, wetFilmUm } from './editionInk.ts'

const solid = { emulsionOverMeshUm: um(8), edgeShare: share(0) }

test('oracle fabric-rows: a square metre of solid through 90-40, -48, -54 takes 25, 24, 23 cm³', () => {
  for (const [name, volume] of [
    ['90-40', 25],
    ['90-48', 24],
    ['90-54', 23],
  ] as const) {
    const film = wetFilmUm(fabricGeometry(weaveNamed(name)), solid)
    const { onPaperCm3 } = editionInk(
      { coveredCm2: 10_000, wetFilmUm: film },
      { sheets: 1, potCm3: 0 },
    )
    near(onPaperCm3.high, volume, {
      within: 1,
      because: 'rows are printed whole, and mean 88.58/cm',
    })
  }
})

test('oracle deposit2000: experience is the other end: 0.285 of 72 um through 90-48', () => {
  const film = wetFilmUm(fabricGeometry(weaveNamed('90-48')), solid)
  near(film.low, 20.52, { within: 1e-9, because: 'a product' })
  expect(film.value).toBeGreaterThan(film.low)
  expect(film.value).toBeLessThan(film.high)
})

test('ink for an edition by hand: 400 cm² of 25 um on 60 sheets, and the pot', () => {
  const film = { value: 25, low: 20, high: 30, confidence: 0.7 }
  const ink = editionInk(
    { coveredCm2: 400, wetFilmUm: film },
    { sheets: 60, potCm3: 120, inkGramsPerCm3: 1.2 },
  )
  near(ink.onPaperCm3.value, 60, { within: 1e-9, because: '1 cm³ a sheet' })
  near(ink.mixCm3, 192, { within: 1e-9, because: '72 at the high end, and 120' })
  near(ink.mixG, 230.4, { within: 1e-9, because: 'times 1.2' })
  near(ink.leftG, 158.4, { within: 1e-9, because: '(192 − 60) · 1.2' })
  expect(() => editionInk({ coveredCm2: 1, wetFilmUm: film }, { sheets: 1.5 })).toThrow('sheets')
})
