import { expect, test } from 'vitest'
import { layersOfPlates } from './plateLayer.ts'

const RED = { shortName: 'N1-R', ink: 'Brick red' }
const BLUE = { shortName: 'N1-B', ink: 'blue' }
const OPEN = { shortName: 'N1-T', ink: null }

const named = (layers: readonly (typeof RED | typeof BLUE | typeof OPEN)[], plates: string[]) =>
  layersOfPlates(layers, { plates }).map((layer) => layer?.shortName ?? null)

test('plates that all have a layer’s name are its, in whatever order they are made', () => {
  expect(named([RED, BLUE], ['Blue', 'brick red '])).toEqual(['N1-B', 'N1-R'])
})

test('as many plates as layers, not all by name: it goes by the order of printing', () => {
  expect(named([RED, BLUE], ['blue', 'black'])).toEqual(['N1-R', 'N1-B'])
  expect(named([OPEN, BLUE], ['grey', 'blue'])).toEqual(['N1-T', 'N1-B'])
})

test('more or fewer plates than layers: those of the same name, each layer once', () => {
  expect(named([RED, BLUE], ['underbase', 'brick red', 'blue'])).toEqual([null, 'N1-R', 'N1-B'])
  expect(named([RED, BLUE], ['blue'])).toEqual(['N1-B'])
  expect(named([RED, BLUE], ['blue', 'blue', 'red'])).toEqual(['N1-B', null, null])
  expect(named([], ['blue'])).toEqual([null])
})
