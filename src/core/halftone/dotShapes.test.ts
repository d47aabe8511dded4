import { expect, test } from 'vitest'
import { near } from '../units/near.testing.ts'
import { DOT_ORDERS, type DotShapeName, ORDER_UNITS, ordersOfTones } from './dotShapes.ts'
import { SOLID } from './solid.ts'

const SIDE = 256
const SHAPES = Object.keys(DOT_ORDERS) as DotShapeName[]

/** Orders at the middles of a cell's 256 by 256 squares, first first. */
function rankedOrders(shape: DotShapeName): Float64Array {
  const at = (place: number): number => (2 * (place + 0.5)) / SIDE - 1
  return Float64Array.from({ length: SIDE ** 2 }, (_, place) =>
    DOT_ORDERS[shape]({ x: at(place % SIDE), y: at(Math.floor(place / SIDE)) }),
  ).sort()
}

test.each(SHAPES)('counted: a tone of %s dots blackens just its share of the cell', (shape) => {
  const ranked = rankedOrders(shape)
  const orders = ordersOfTones(shape)
  for (let tone = 257; tone < SOLID; tone += 257) {
    const order = (orders[tone] ?? 0) / ORDER_UNITS[shape]
    const black = ranked.findIndex((other) => other >= order)
    const share = (black < 0 ? ranked.length : black) / ranked.length
    near(share, tone / SOLID, {
      within: 0.004,
      because: 'squares of 256 by 256, in rows of lines',
    })
  }
})

test.each(SHAPES)('%s: nothing stays nothing, solid is past every place, more is more', (shape) => {
  const orders = ordersOfTones(shape)
  expect([orders[0], orders[SOLID]]).toEqual([0, SOLID])
  expect(orders.every((order, tone) => tone === 0 || order >= (orders[tone - 1] ?? 0))).toBe(true)
})
