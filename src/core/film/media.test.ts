import { describe, expect, test } from 'vitest'
import { baseNamed, FILM_BASES } from './bases.ts'
import { transmissionFromDensity } from './density.ts'
import { FILM_TO_FILM_SD, MEDIA, mediumNamed } from './media.ts'

test('names are found however they are typed, and an unknown one is null', () => {
  expect(mediumNamed('  Soft  Pencil ')?.weakest.mean).toBe(0.93)
  expect(mediumNamed('candle soot')).toBeNull()
  expect(baseNamed('Tracing paper')?.baseDensity).toBe(0.35)
  expect(baseNamed('')).toBeNull()
})

test('no name stands twice, in either table', () => {
  for (const names of [MEDIA.map(({ name }) => name), FILM_BASES.map(({ name }) => name)]) {
    expect(new Set(names).size).toBe(names.length)
  }
})

describe.each(MEDIA)('$name', (medium) => {
  test('is a mark that darkens, with more doubt than there is between two films', () => {
    expect(transmissionFromDensity(medium.weakest.mean)).toBeLessThan(0.5)
    expect(medium.weakest.sd).toBeGreaterThan(FILM_TO_FILM_SD)
    expect(medium.name).toBe(medium.name.trim().toLowerCase())
  })

  test('has no weakest mark above its own solid', () => {
    const solidLow = medium.solid?.low ?? Number.POSITIVE_INFINITY
    expect(medium.weakest.mean).toBeLessThan(solidLow)
    expect(medium.solid?.high ?? Number.POSITIVE_INFINITY).toBeGreaterThanOrEqual(solidLow)
  })
})
