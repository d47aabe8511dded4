import type { Film, FilmBand } from '../film.ts'
import { type Greys, greyCells, offs } from './greyCells.ts'
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
    const { marks, isPlain } = marked(samples, rows * widthPx)
    greys?.add(band, isPlain)
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
      const cells = shares.values.subarray(line, line + shares.widthPx)
      addRow(cells, marks.subarray(from, from + widthPx), side)
    }
  }
  const area = side * side
  if (area > 1) for (let at = 0; at < shares.values.length; at += 1) shares.values[at] /= area
  return { ...shares, greys: greys?.greys() ?? null }
}

function addRow(cells: Float32Array, marks: Uint8Array, side: number): void {
  for (let x = 0, cell = 0; x < marks.length; cell += 1) {
    const end = Math.min(marks.length, x + side)
    let sum = 0
    for (; x < end; x += 1) sum += marks[x]
    if (sum > 0) cells[cell] += sum
  }
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

const MARK = 1
const GREY = 2

/** Turns the first samples of a band into ones for marks and zeros, valid until the next. */
function marking(
  film: Film,
  belowTransmission: number,
): (
  samples: FilmBand['samples'],
  count: number,
) => Readonly<{ marks: Uint8Array; isPlain: boolean }> {
  const { transmissionOf } = film
  const density = -Math.log10(belowTransmission)
  const offOf = offs(belowTransmission)
  const table =
    transmissionOf === null
      ? null
      : Uint8Array.from(
          transmissionOf,
          (transmission) =>
            (transmission < belowTransmission ? MARK : 0) | (offOf(transmission) === 0 ? 0 : GREY),
        )
  let marks = new Uint8Array(0)
  return (samples, count) => {
    if (marks.length < count) marks = new Uint8Array(count)
    if (table !== null) return { marks, isPlain: plainlyMarked(samples, { table, marks, count }) }
    for (let at = 0; at < count; at += 1) marks[at] = samples[at] > density ? MARK : 0
    return { marks, isPlain: false }
  }
}

/** Sets marks by a table of samples; says whether none of them is grey. */
function plainlyMarked(
  samples: FilmBand['samples'],
  { table, marks, count }: Readonly<{ table: Uint8Array; marks: Uint8Array; count: number }>,
): boolean {
  let seen = 0
  for (let at = 0; at < count; at += 1) {
    const what = table[samples[at]]
    seen |= what
    marks[at] = what & MARK
  }
  return (seen & GREY) === 0
}
