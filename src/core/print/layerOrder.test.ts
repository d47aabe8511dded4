import { expect, test } from 'vitest'
import { layerOrder, type OrderedLayer } from './layerOrder.ts'

const black: OrderedLayer = { lab: [16, 0, 0], opacity: 0.9, coverShare: 0.2 }
const ochre: OrderedLayer = { lab: [72, 14, 55], opacity: 0.4, coverShare: 0.35 }
const grey: OrderedLayer = { lab: [62, 1, 6], opacity: 0.4, coverShare: 0.3 }
const white: OrderedLayer = { lab: [94, 0, 2], opacity: 0.95, coverShare: 0.4 }

test('light before dark stays as it is', () => {
  expect(layerOrder([ochre, grey, black])).toMatchObject({ isAsGiven: true, against: [] })
  expect(layerOrder([black])).toMatchObject({ order: [0], isAsGiven: true })
})

test('a see-through light ink does not go over a dark one, and the pair is named', () => {
  const { order, isAsGiven, against } = layerOrder([black, ochre, grey])
  expect(order).toEqual([1, 2, 0])
  expect(isAsGiven).toBe(false)
  expect(against).toContainEqual({ first: 0, second: 1, why: 'lighter over darker' })
})

test('a white that hides goes down first, as a ground', () => {
  const { order, against } = layerOrder([grey, white, black])
  expect(order[0]).toBe(1)
  expect(against[0]).toMatchObject({ first: 0, second: 1, why: 'white ground' })
})

test('a light ink that hides may go over a dark one', () => {
  expect(layerOrder([black, { ...ochre, opacity: 1, coverShare: 0.1 }]).isAsGiven).toBe(false)
  const dark: OrderedLayer = { ...black, lab: [60, 0, 0] }
  expect(layerOrder([dark, { ...ochre, opacity: 1, coverShare: 0.1 }]).isAsGiven).toBe(true)
})

test('of all orders of five inks none loses less: tried one by one', () => {
  const five = [black, white, ochre, { ...grey, coverShare: 0.8 }, { ...black, lab: [40, 50, 30] }]
  const layers = five as readonly OrderedLayer[]
  const lost = (order: readonly number[]): number =>
    layerOrder(order.map((at) => layers[at] ?? black)).against.length
  const found = layerOrder(layers).order
  for (const order of ordersOf([0, 1, 2, 3, 4]))
    expect(lost(found)).toBeLessThanOrEqual(lost(order))
})

function ordersOf(places: readonly number[]): readonly (readonly number[])[] {
  if (places.length < 2) return [places]
  return places.flatMap((first) =>
    ordersOf(places.filter((each) => each !== first)).map((rest) => [first, ...rest]),
  )
}
