import type { Film, FilmBand } from '../film.ts'
import { type Greys, greyCells } from './greyCells.ts'
import { type Plane, planeOf } from './plane.ts'

/** Shares of marks, and where the film is neither clear nor dense; null where it nowhere is, or unasked. */
export type Shares = Plane & Readonly<{ greys: Greys | null }>

/**
 * A film as shares of marks: 0 all ground, 1 all mark.
 *
 * @param cell film pixels a side of one cell, a whole number, or one over a whole number where a
 *   film pixel is divided; belowTransmission: what belongs to a mark, and is to open
 */
export async function markShares(
  film: Film,
  {
    cellPx,
    belowTransmission,
    withGreys = false,
  }: Readonly<{ cellPx: number; belowTransmission: number; withGreys?: boolean }>,
): Promise<Shares> {
  const { widthPx, heightPx } = film
  const parts = cellPx < 1 ? Math.round(1 / cellPx) : 1
  const side = cellPx < 1 ? 1 : cellPx
  const shares = planeOf(Math.ceil(widthPx / side) * parts, Math.ceil(heightPx / side) * parts)
  const marked = marking(film, belowTransmission)
  const greys = withGreys ? greyCells(film, { ...shares, side, parts, belowTransmission }) : null
  for await (const band of film.bands()) {
    const { top, rows, samples } = band
    greys?.add(band)
    const marks = marked(samples, rows * widthPx)
    for (let row = 0; row < rows; row += 1) {
      const y = top + row
      const from = row * widthPx
      if (parts > 1) {
        divideRow({ shares, parts, y, widthPx }, marks.subarray(from, from + widthPx))
        continue
      }
      const line = Math.floor(y / side) * shares.widthPx
      if (side === 1) {
        shares.values.set(marks.subarray(from, from + widthPx), line)
        continue
      }
      for (let x = 0, cell = line; x < widthPx; cell += 1) {
        const end = Math.min(widthPx, x + side)
        let sum = 0
        for (; x < end; x += 1) sum += marks[from + x]
        if (sum > 0) shares.values[cell] += sum
      }
    }
  }
  const area = side * side
  if (area > 1) for (let at = 0; at < shares.values.length; at += 1) shares.values[at] /= area
  return { ...shares, greys: greys?.greys() ?? null }
}

function divideRow(
  to: Readonly<{ shares: Plane; parts: number; y: number; widthPx: number }>,
  marks: Uint8Array,
): void {
  const { shares, parts, y, widthPx } = to
  for (let x = 0; x < widthPx; x += 1) {
    if (marks[x] === 0) continue
    for (let part = 0; part < parts; part += 1) {
      const at = (y * parts + part) * shares.widthPx + x * parts
      shares.values.fill(1, at, at + parts)
    }
  }
}

/** Turns the first samples of a band into ones for marks and zeros, valid until the next. */
function marking(
  film: Film,
  belowTransmission: number,
): (samples: FilmBand['samples'], count: number) => Uint8Array {
  const { transmissionOf } = film
  const density = -Math.log10(belowTransmission)
  const table =
    transmissionOf === null
      ? null
      : Uint8Array.from(transmissionOf, (transmission) =>
          transmission < belowTransmission ? 1 : 0,
        )
  let marks = new Uint8Array(0)
  return (samples, count) => {
    if (marks.length < count) marks = new Uint8Array(count)
    if (table === null) {
      for (let at = 0; at < count; at += 1) marks[at] = samples[at] > density ? 1 : 0
    } else {
      for (let at = 0; at < count; at += 1) marks[at] = table[samples[at]]
    }
    return marks
  }
}
