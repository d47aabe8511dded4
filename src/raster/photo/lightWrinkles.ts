/** A clear place of a sheet or of what lies around it: where, from −1 to 1, and how much brighter than the smooth light. */
export type Residue = Readonly<{ u: number; v: number; log: number }>

/** What a smooth light leaves, as log10, at a place from −1 to 1. */
export type Wrinkles = (u: number, v: number) => number

/** Cells along the longer side: tubes stand further apart. */
const CELLS = 32
/** Further off it is a mark or a base, not the table's light (judged). */
const MOST_OFF = 0.025
/** What is darker may be a pale mark, and counts less (judged). */
const BAND = { below: 0.015, above: 0.03 }
/** So many places' worth of no wrinkle at all is believed to begin with (judged). */
const PRIOR = 1.5

/**
 * Tubes behind opal glass make waves that no smooth surface follows: means of what is left at clear
 * places, cell by cell, each with its neighbours. Where little is clear there is no wrinkle.
 *
 * @param widthPx, heightPx of the coarse picture, for its shape
 */
export function lightWrinkles(
  clear: Iterable<Residue>,
  { widthPx, heightPx }: Readonly<{ widthPx: number; heightPx: number }>,
): Wrinkles {
  const longer = Math.max(widthPx, heightPx)
  const [across, down] = [
    Math.max(2, Math.round((CELLS * widthPx) / longer)),
    Math.max(2, Math.round((CELLS * heightPx) / longer)),
  ]
  const [sums, weights] = [new Float64Array(across * down), new Float64Array(across * down)]
  for (const { u, v, log } of clear) {
    if (Math.abs(log) > MOST_OFF) continue
    const weight = 1 / (1 + (log / (log < 0 ? BAND.below : BAND.above)) ** 2) ** 2
    const x = Math.min(across - 1, Math.floor(((u + 1) / 2) * across))
    const y = Math.min(down - 1, Math.floor(((v + 1) / 2) * down))
    sums[y * across + x] += weight * log
    weights[y * across + x] += weight
  }
  const size = { across, down }
  const [sum, weight] = [spread(sums, size), spread(weights, size)]
  const means = sum.map((value, at) => value / (weight[at] + PRIOR))
  return (u, v) => {
    const x = Math.max(0, Math.min(across - 1, ((u + 1) / 2) * across - 0.5))
    const y = Math.max(0, Math.min(down - 1, ((v + 1) / 2) * down - 0.5))
    const [left, top] = [Math.min(across - 2, Math.floor(x)), Math.min(down - 2, Math.floor(y))]
    const row = (at: number): number => means[at] + (x - left) * (means[at + 1] - means[at])
    const upper = row(top * across + left)
    return upper + (y - top) * (row((top + 1) * across + left) - upper)
  }
}

/** Each cell with half of its neighbours', and a quarter of those aslant. */
function spread(
  cells: Float64Array,
  { across, down }: Readonly<{ across: number; down: number }>,
): Float64Array {
  const along = cells.map(
    (own, at) =>
      own +
      (at % across > 0 ? cells[at - 1] : 0) / 2 +
      (at % across < across - 1 ? cells[at + 1] : 0) / 2,
  )
  return along.map(
    (own, at) =>
      own +
      (at >= across ? along[at - across] : 0) / 2 +
      (at < across * (down - 1) ? along[at + across] : 0) / 2,
  )
}
