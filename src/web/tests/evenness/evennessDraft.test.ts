import { expect, test } from 'vitest'
import { newEvenness } from '../../../api/lamp.ts'
import { NO_WEDGE } from '../wedgeDraft.ts'
import { evennessOf, fivePlaces, glassOf } from './evennessDraft.ts'
import { EVENNESS_WORDS } from './evennessWords.ts'

const DRAFT = { width: '1200', height: '900', dose: '60', on: '', wedge: NO_WEDGE, places: [] }
const AS = { unit: 'big', units: 'metric' } as const
const places = fivePlaces({ widthMm: 1200, heightMm: 900 }, 'metric').map((place, at) => ({
  ...place,
  solid: String(6 - (at % 2)),
}))

test('five wedges lie in the middle and near the corners, and go out in the contract’s shape', () => {
  const { told } = evennessOf({ ...DRAFT, places }, AS)
  const { places: sent, ...rest } = newEvenness.parse(told)
  expect(rest).toEqual({ unit: 'big', glass: { widthMm: 1200, heightMm: 900 }, doseLu: 60 })
  expect(sent).toContainEqual({ xMm: 600, yMm: 450, lastSolidStep: 6 })
  const xs = sent.map(({ xMm }) => xMm)
  expect(Math.min(...xs)).toBeLessThan(200)
  expect(Math.max(...xs)).toBeGreaterThan(1000)
})

test('a wedge of finer steps goes out with them, and steps that it has not are told', () => {
  const wedge = { steps: '31', firstDensity: '', increment: '0.05' }
  const { told } = evennessOf({ ...DRAFT, wedge, places }, AS)
  expect(newEvenness.parse(told).wedge).toEqual({ steps: 31, firstDensity: 0.05, increment: 0.05 })
  const far = places.with(0, { ...(places[0] ?? { x: '', y: '', clear: '' }), solid: '22' })
  expect(evennessOf({ ...DRAFT, places: far }, AS).wrong?.places[0]).toBeDefined()
  expect(evennessOf({ ...DRAFT, wedge, places: far }, AS).wrong).toBeNull()
  const thick = { ...wedge, increment: '5' }
  expect(evennessOf({ ...DRAFT, wedge: thick, places }, AS).wrong?.wedge?.increment).toContain('5')
})

test('the glass may be measured in inches', () => {
  expect(glassOf({ ...DRAFT, width: '48', height: '36' }, 'imperial')?.widthMm).toBeCloseTo(1219.2)
  expect(glassOf({ ...DRAFT, width: '48 in' }, 'metric')?.widthMm).toBeCloseTo(1219.2)
})

test('places nobody read do not count, and three are the least', () => {
  const two = places.map((place, at) => (at < 2 ? place : { ...place, solid: '' }))
  expect(evennessOf({ ...DRAFT, places: two }, AS).wrong).toEqual({
    few: EVENNESS_WORDS.wrong.few,
    places: {},
  })
})

test('a place off the glass, and a clear step before the solid one, are told by their number', () => {
  const off = places.with(1, { x: '1300', y: '100', solid: '6', clear: '' })
  const early = off.with(3, { x: '100', y: '100', solid: '6', clear: '5' })
  expect(evennessOf({ ...DRAFT, places: early }, AS).wrong?.places).toEqual({
    1: EVENNESS_WORDS.wrong.place(2),
    3: EVENNESS_WORDS.wrong.clear(4),
  })
  expect(evennessOf({ ...DRAFT, width: '', places }, AS).wrong?.width).toBe(
    EVENNESS_WORDS.wrong.glass(''),
  )
})
