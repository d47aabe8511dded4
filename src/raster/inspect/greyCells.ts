import type { Film, FilmBand } from '../film.ts'

/**
 * How far the film's own tone (1 − transmission) is from its share of marks, cell by cell, in
 * hundredths: below 0 a mark that lets light through, above 0 ground that is not clear.
 */
export type Greys = Int8Array

export type GreyCells = Readonly<{
  /** @param isPlain whether all of the band is known to be either clear or dense */
  add: (band: FilmBand, isPlain?: boolean) => void
  /** null while all that was added is either clear or dense. */
  greys: () => Greys | null
}>

/** A tone so near to its share is no grey. */
const LEAST_HUNDREDTHS = 5

type Laid = Readonly<{
  /** Cells across and down. */
  widthPx: number
  heightPx: number
  /** Film pixels a side of a cell, or cells a side of a film pixel where that is more than 1. */
  side: number
  parts: number
  belowTransmission: number
}>

/** Gathers the greys of a film whose rows come in order. A film of black and clear costs no memory. */
export function greyCells(film: Film, laid: Laid): GreyCells {
  const { widthPx, heightPx, side, parts } = laid
  const offOf = offs(laid.belowTransmission)
  const offIn = (density: number): number => offOf(10 ** -density)
  const table = film.transmissionOf === null ? null : Int8Array.from(film.transmissionOf, offOf)
  const line = new Int32Array(widthPx)
  let cells: Int8Array | null = null
  let isLineGrey = false
  const endLine = (row: number): void => {
    if (isLineGrey) {
      cells ??= new Int8Array(widthPx * heightPx)
      const from = Math.floor(row / side) * parts * widthPx
      for (let x = 0; x < widthPx; x += 1) cells[from + x] = Math.round(line[x] / (side * side))
      for (let part = 1; part < parts; part += 1) {
        cells.copyWithin(from + part * widthPx, from, from + widthPx)
      }
      line.fill(0)
    }
    isLineGrey = false
  }
  return {
    add: ({ top, rows, samples }, isPlain = false) => {
      if (isPlain && !isLineGrey) return
      for (let row = top; row < top + rows; row += 1) {
        const from = (row - top) * film.widthPx
        for (let x = 0; x < film.widthPx; x += 1) {
          const off = table === null ? offIn(samples[from + x]) : table[samples[from + x]]
          if (off === 0) continue
          isLineGrey = true
          const cell = Math.floor(x / side) * parts
          for (let part = 0; part < parts; part += 1) line[cell + part] += off
        }
        if ((row + 1) % side === 0 || row === film.heightPx - 1) endLine(row)
      }
    },
    greys: () => cells,
  }
}

/** Hundredths by which the tone of a transmission is off its share of marks, 0 or 1. */
export function offs(belowTransmission: number): (transmission: number) => number {
  return (transmission) => {
    const tone = 1 - Math.min(1, transmission)
    const hundredths = Math.round(100 * (tone - (transmission < belowTransmission ? 1 : 0)))
    return Math.abs(hundredths) < LEAST_HUNDREDTHS ? 0 : hundredths
  }
}

/** What the greys about a cell add to what may be there: the cell's own, or those around it. */
export function greyAbout(
  greys: Greys,
  { left, at, right, up, down }: Readonly<Record<'left' | 'at' | 'right' | 'up' | 'down', number>>,
): Readonly<{ least: number; most: number }> {
  const own = greys[at]
  const beside = greys[left] + greys[right] + greys[at - up] + greys[at + down]
  const aslant = greys[left - up] + greys[right - up] + greys[left + down] + greys[right + down]
  const around = (4 * own + 2 * beside + aslant) / 16
  return { least: Math.min(0, own, around) / 100, most: Math.max(0, own, around) / 100 }
}
