export type DotShapeName = 'round' | 'elliptical' | 'line'

/** Ink comes first where this is lowest. x runs along the screen's angle; both −1 … 1 in a cell. */
export type DotOrder = (at: Readonly<{ x: number; y: number }>) => number

/** A new shape is a word above and an entry here: plans and tests follow. */
export const DOT_ORDERS: Readonly<Record<DotShapeName, DotOrder>> = {
  round: ({ x, y }) => x ** 2 + y ** 2,
  elliptical: ({ x, y }) => x ** 2 + (1.5 * y) ** 2,
  line: ({ y }) => Math.abs(y),
}

/** An order as kernels count it: so many from 1 on. 65 535 comes after every place of a cell. */
export const ORDER_UNITS: Readonly<Record<DotShapeName, number>> = {
  round: 2 ** 15,
  elliptical: 2 ** 14,
  line: 2 ** 16,
}

/**
 * How much of its cell ink has filled when it comes to places of this order: what lies within the
 * circle, the ellipse or the two lines through them, less what the cell's sides cut off.
 *
 * @returns 0 … 1
 * @source geometry: a segment of a circle of radius √s beyond a line at distance 1 is
 *   s·acos(1/√s) − √(s − 1), which is (1 + q) atan √q − √q with q = s − 1
 */
export const FILLED_SHARES: Readonly<Record<DotShapeName, (order: number) => number>> = {
  round: (s) => (Math.PI / 4) * s - cutOff(s),
  elliptical: (s) => (Math.PI / 6) * s - cutOff(s) / 3 - (2.25 * cutOff(s / 2.25)) / 3,
  line: (s) => s,
}

function cutOff(s: number): number {
  if (s <= 1) return 0
  const q = s - 1
  return (1 + q) * Math.atan(Math.sqrt(q)) - Math.sqrt(q)
}

const TONES = 65_536

/**
 * For each tone 0 … 65 535 the order up to which ink fills a cell, in ORDER_UNITS: places of less are
 * black. Nothing stays 0 and solid 65 535.
 *
 * @returns not to be written to
 */
export function ordersOfTones(shape: DotShapeName): Uint16Array {
  const made = MADE.get(shape) ?? madeOrders(shape)
  MADE.set(shape, made)
  return made
}

const MADE = new Map<DotShapeName, Uint16Array>()

function madeOrders(shape: DotShapeName): Uint16Array {
  const filled = FILLED_SHARES[shape]
  const unit = ORDER_UNITS[shape]
  const orders = new Uint16Array(TONES)
  let tone = 0
  for (let order = 0; order < TONES - 2; order++) {
    const share = filled((order + 0.5) / unit)
    while (tone < TONES - 1 && share >= tone / (TONES - 1)) orders[tone++] = order
  }
  orders.fill(TONES - 2, tone)
  orders[TONES - 1] = TONES - 1
  return orders
}
