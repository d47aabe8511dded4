import type { Film } from '../film.ts'
import { type Plane, planeOf } from './plane.ts'

/**
 * A film as shares of marks: 0 all ground, 1 all mark.
 *
 * @param cell film pixels a side of one cell, a whole number, or one over a whole number where a
 *   film pixel is divided; belowTransmission: what belongs to a mark, and is to open
 */
export async function markShares(
  film: Film,
  { cellPx, belowTransmission }: Readonly<{ cellPx: number; belowTransmission: number }>,
): Promise<Plane> {
  const { widthPx, heightPx } = film
  const parts = cellPx < 1 ? Math.round(1 / cellPx) : 1
  const side = cellPx < 1 ? 1 : cellPx
  const shares = planeOf(Math.ceil(widthPx / side) * parts, Math.ceil(heightPx / side) * parts)
  const isMark = marked(film, belowTransmission)
  for await (const { top, rows, samples } of film.bands()) {
    for (let row = 0; row < rows; row += 1) {
      const y = top + row
      const from = row * widthPx
      if (parts > 1) {
        divideRow({ shares, parts, y, widthPx }, (x) => isMark(samples[from + x]))
        continue
      }
      const line = Math.floor(y / side) * shares.widthPx
      for (let x = 0, cell = line, next = side; x < widthPx; x += 1) {
        if (x === next) {
          cell += 1
          next += side
        }
        if (isMark(samples[from + x])) shares.values[cell] += 1
      }
    }
  }
  const area = side * side
  for (let at = 0; at < shares.values.length; at += 1) shares.values[at] /= area
  return shares
}

function divideRow(
  to: Readonly<{ shares: Plane; parts: number; y: number; widthPx: number }>,
  isMark: (x: number) => boolean,
): void {
  const { shares, parts, y, widthPx } = to
  for (let x = 0; x < widthPx; x += 1) {
    if (!isMark(x)) continue
    for (let part = 0; part < parts; part += 1) {
      const at = (y * parts + part) * shares.widthPx + x * parts
      shares.values.fill(1, at, at + parts)
    }
  }
}

function marked(film: Film, belowTransmission: number): (sample: number) => boolean {
  const { transmissionOf } = film
  if (transmissionOf === null) {
    const density = -Math.log10(belowTransmission)
    return (sample) => sample > density
  }
  const marks = Uint8Array.from(transmissionOf, (transmission) =>
    transmission < belowTransmission ? 1 : 0,
  )
  return (sample) => marks[sample] === 1
}
