import { type Enlarger, enlargerAt, enlargerBytes, padded, type WidenPlan } from './enlarger.ts'
import { filmRowsCode } from './filmRowsCode.ts'
import { kernelOf } from './kernel.ts'

/**
 * Rows of a film on their way from tones to bits. All that goes in and comes out are arrays that
 * were made here, in memory of its own.
 */
export type FilmRows = Readonly<{
  /** Room for a row of tones 0 … 65 535, or for one of bits of so many pixels; null where it is full. */
  tones: (widthPx: number) => Uint16Array | null
  bits: (widthPx: number) => Uint8Array | null
  /**
   * Counts how much is black in squares of rows of bits.
   *
   * @param widthPx of the rows
   */
  counter: (widthPx: number, squarePx: number) => SquareCounter | null
  /**
   * Makes tones of rows of greys.
   *
   * @param table a tone for each of 256 greys
   */
  greys: (widthPx: number, table: Uint16Array) => GreyRows | null
  /** Room for pairs of places along and across. */
  places: (count: number) => Int16Array | null
  /** Makes rows of so many plates wider; null where there is no room. */
  enlarger: (plan: WidenPlan, plates: number) => Enlarger | null
  limit: (row: Uint16Array, held: HeldTones) => void
  /** Flat colours from shares, in the rows themselves: those of an enlarger, first to last. */
  decide: (rows: readonly Uint16Array[]) => void
  /** @param row tones as the shape's order of filling has them: core/halftone/dotShapes.ts */
  dots: (row: Uint16Array, dots: DotRow, bits: Uint8Array) => void
  /** Black where the threshold is below the tone: a line of 16 n thresholds, again and again. */
  mask: (row: Uint16Array, line: Uint16Array, bits: Uint8Array) => void
  /** Black from half a tone up. */
  solid: (row: Uint16Array, bits: Uint8Array) => void
  /**
   * Takes other bits where a tone is beyond a range.
   *
   * @param other drawn only where it is needed
   */
  takeEnds: (row: Uint16Array, range: TonesBetween, to: Ends) => void
}>

export type GreyRows = Readonly<{
  /** The last row that was taken. */
  tones: Uint16Array
  take: (greys: Uint8Array) => void
}>

/**
 * Tones below `nothingBelow` become nothing, those up to `least` that; those above `solidAbove`
 * become solid, the others from `most` up that.
 */
export type HeldTones = Readonly<{
  nothingBelow: number
  least: number
  most: number
  solidAbove: number
}>

export type TonesBetween = Readonly<{ low: number; high: number }>

export type Ends = Readonly<{ bits: Uint8Array; other: () => Uint8Array }>

export type SquareCounter = Readonly<{
  /** Counts a row, whose bits past the width are 0. */
  add: (bits: Uint8Array) => void
  /** Black pixels of each square since the last time; they hold until the next row. */
  taken: () => Uint32Array
}>

/**
 * Where a row's first pixel lies from the middle of its cell, and from one pixel to the next: along
 * the screen's angle and across it, a whole cell 2^32, wrapping.
 */
export type DotRow = Readonly<{
  shape: 'round' | 'elliptical' | 'line'
  u: number
  v: number
  du: number
  dv: number
  /** How far each of SCATTER_PX pixels is moved, again and again: along the angle and across, a cell 2^16. */
  scatter: Int16Array | null
}>

export const SCATTER_PX: number = 61 * 16

/** Where the rows of kernels lie. */
const HOLDERS = new WeakMap<ArrayBufferLike, FilmRows>()

/** The rows by machine code that this one lies in, if it does. */
export function filmRowsHolding({ buffer }: Uint16Array): FilmRows | null {
  return HOLDERS.get(buffer) ?? null
}

/** What screens need beside the rows, in several plates' worth; it costs nothing before it is used. */
const SPARE_BYTES = 2 ** 22

/**
 * By machine code: the bits of the plain loops in raster/films/plainRows.ts, many times as fast.
 *
 * @param roomBytes for rows; `enlargerBytes` of an enlarger, `greysBytes` of greys
 */
export function filmRows({ roomBytes }: Readonly<{ roomBytes: number }>): FilmRows {
  const { memory, call, named } = kernelOf(filmRowsCode)
  const base = call('baseAt')
  const end = base + roomBytes + SPARE_BYTES
  call('makeRoom', end)
  const { buffer } = memory
  const drawDots = {
    round: named('roundDots'),
    elliptical: named('ellipticalDots'),
    line: named('lineDots'),
  }
  const drawMask = named('mask')
  let free = base
  const room = (bytes: number): number | null => {
    const at = free
    const next = at + 16 * Math.ceil(bytes / 16)
    if (next > end) return null
    free = next
    return at
  }
  const tones = (widthPx: number): Uint16Array | null => {
    const at = room(2 * padded(widthPx))
    return at === null ? null : new Uint16Array(buffer, at, widthPx)
  }
  const rows: FilmRows = {
    tones,
    bits: (widthPx) => {
      const at = room(padded(widthPx) / 8)
      return at === null ? null : new Uint8Array(buffer, at, Math.ceil(widthPx / 8))
    },
    greys: (widthPx, table) => {
      const at = room(greysBytes(widthPx))
      if (at === null) return null
      const width = padded(widthPx)
      const [greysAt, tableAt] = [at + 2 * width, at + 3 * width]
      const greys = new Uint8Array(buffer, greysAt, widthPx)
      new Uint16Array(buffer, tableAt, GREYS).set(table)
      const look = named('lookUp')
      return {
        tones: new Uint16Array(buffer, at, widthPx),
        take: (row) => {
          greys.set(row)
          look(greysAt, widthPx, tableAt, at)
        },
      }
    },
    places: (count) => {
      const at = room(4 * count)
      return at === null ? null : new Int16Array(buffer, at, 2 * count)
    },
    enlarger: (plan, plates) => {
      const at = room(enlargerBytes(plan, plates))
      return at === null ? null : enlargerAt(at, { plan, plates, buffer, named, room })
    },
    counter: (widthPx, squarePx) => {
      const squares = Math.ceil(widthPx / squarePx)
      const [bitsAt, countsAt] = [room(Math.ceil((squares * squarePx) / 8) + 16), room(4 * squares)]
      if (bitsAt === null || countsAt === null) return null
      const row = new Uint8Array(buffer, bitsAt, Math.ceil(widthPx / 8))
      const counts = new Uint32Array(buffer, countsAt, squares)
      const count = named('countSquares')
      return {
        add: (bits) => {
          row.set(bits)
          count(bitsAt, squarePx, squares, countsAt)
        },
        taken: () => {
          const own = counts.slice()
          counts.fill(0)
          return own
        },
      }
    },
    decide: (own) => {
      const [first, second = first] = own.map(({ byteOffset }) => byteOffset)
      call('decide', first, second - first, own.length, own[0].length)
    },
    limit: (row, { nothingBelow, least, most, solidAbove }) => {
      call('limit', row.byteOffset, row.length, nothingBelow, least, most, solidAbove)
    },
    dots: (row, { shape, u, v, du, dv, scatter }, bits) => {
      const [from, to] = [row.byteOffset, bits.byteOffset]
      const moved = scatter === null ? 0 : scatter.byteOffset
      drawDots[shape](from, row.length, to, u, v, du, dv, moved)
    },
    mask: (row, line, bits) => {
      drawMask(row.byteOffset, row.length, bits.byteOffset, line.byteOffset, line.length)
    },
    solid: (row, bits) => {
      call('solid', row.byteOffset, row.length, bits.byteOffset)
    },
    takeEnds: (row, { low, high }, { bits, other }) => {
      if (call('hasEnds', row.byteOffset, row.length, low, high) === 0) return
      const taken = other().byteOffset
      call('takeEnds', row.byteOffset, row.length, low, high, bits.byteOffset, taken)
    },
  }
  HOLDERS.set(buffer, rows)
  return rows
}

const GREYS = 256

/** What `greys` takes of the room. */
export function greysBytes(widthPx: number): number {
  return 3 * padded(widthPx) + 2 * GREYS
}
