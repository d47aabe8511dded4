export type DotShapeName = 'round' | 'elliptical' | 'line'

/** Ink comes first where this is lowest. x runs along the screen's angle; both −1 … 1 in a cell. */
export type DotOrder = (at: Readonly<{ x: number; y: number }>) => number

/** A new shape is a word above and an entry here: plans and tests follow. */
export const DOT_ORDERS: Readonly<Record<DotShapeName, DotOrder>> = {
  round: ({ x, y }) => x ** 2 + y ** 2,
  elliptical: ({ x, y }) => x ** 2 + (1.5 * y) ** 2,
  line: ({ y }) => Math.abs(y),
}
