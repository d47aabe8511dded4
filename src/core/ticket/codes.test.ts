import { expect, test } from 'vitest'
import { layerSaid, layerShortName, nextCode } from './codes.ts'

test('a ticket is called by the first letter of its name and the next number of that letter', () => {
  expect(nextCode('Heron', ['H7', 'H2', 'K9'])).toBe('H8')
  expect(nextCode('Émile', ['K1'])).toBe('E1')
  expect(nextCode('42', ['T3'])).toBe('T4')
  expect(nextCode('猫', [])).toBe('T1')
  expect(() => nextCode('Heron', ['H9999'])).toThrow(RangeError)
})

test('a layer is called by its ink, and two of one initial are told apart', () => {
  const named = (ink: string, taken: readonly string[] = []): string =>
    layerShortName('H7', { ink, taken })
  expect(named('black')).toBe('H7-B')
  expect(named('blue', ['H7-B'])).toBe('H7-BL')
  expect(named('black', ['H7-B', 'H7-BL', 'H7-BLA', 'H7-BLAC', 'H7-BLACK'])).toBe('H7-B2')
  expect(named('猫')).toBe('H7-T')
})

test('a paper says its layer, and the ink once', () => {
  const layer = { shortName: 'N1-B', ink: 'black' }
  expect(layerSaid(layer, 'brush and wash')).toBe('N1-B, black: brush and wash')
  expect(layerSaid(layer, 'Night boat, Black')).toBe('N1-B: Night boat, Black')
  expect(layerSaid(layer, '')).toBe('N1-B, black')
  expect(layerSaid({ shortName: 'N1-T', ink: null }, 'pen')).toBe('N1-T: pen')
})
