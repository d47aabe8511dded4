import type { DotOrder } from './dotShapes.ts'

/** Places along a cell's side at which its thresholds are known. */
export const CELL_SIDE = 256

/** A tone of this much is solid; a threshold is less. */
export const SOLID = 65_535

/**
 * The threshold of each place of a cell, row by row: its rank in the order in which ink fills the
 * cell. So thresholds are spread evenly, and a tone blackens just its share of the cell, whatever
 * the shape.
 *
 * @returns 0 … 65 534; a place is black where its threshold is below the tone
 */
export function cellThresholds(order: DotOrder): Uint16Array {
  const places = CELL_SIDE ** 2
  const orders = Float64Array.from({ length: places }, (_, at) =>
    order({ x: centred(at % CELL_SIDE), y: centred(Math.floor(at / CELL_SIDE)) }),
  )
  const ranked = Uint32Array.from({ length: places }, (_, at) => at).sort(
    (one, other) => (orders[one] ?? 0) - (orders[other] ?? 0) || one - other,
  )
  const thresholds = new Uint16Array(places)
  ranked.forEach((place, rank) => {
    thresholds[place] = Math.floor((rank * SOLID) / places)
  })
  return thresholds
}

function centred(at: number): number {
  return (2 * (at + 0.5)) / CELL_SIDE - 1
}
