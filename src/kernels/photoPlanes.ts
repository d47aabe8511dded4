import { kernelOf } from './kernel.ts'
import { photoPlanesCode } from './photoPlanesCode.ts'

/** Rows of a file as it stores them: channels side by side, 8 or 16 bits each. */
export type StoredRows = Uint8Array | Uint16Array

/** Of a place that is laid: in the photo, what is taken off its light, what that is divided by. */
export type Knots = Readonly<{
  x: Float64Array
  y: Float64Array
  ground: Float64Array
  gain: Float64Array
}>

/** A rectangle of whole pixels. */
type Size = Readonly<{ widthPx: number; heightPx: number }>

/** A photo's planes in memory that machine code sees: the plain loops' bits, several times as fast. */
export type PhotoPlanes = Readonly<{
  /** Linear light, row by row, in the codes of a leak. */
  light: Uint16Array
  /** Means over squares of `by` pixels, at least 2; they last until others are asked for. */
  reduced: (by: number) => Float32Array
  /** The same as greys to look at, root of light: 0 … 255; a copy. */
  greys: (by: number) => Uint8Array
  /**
   * The one large sheet that can be laid out of the photo; null where it is lent already or has not
   * enough room.
   */
  lend: (size: Size) => LentSheet | null
}>

export type LentSheet = Readonly<{
  values: Float32Array
  /** Knots above and below, every STRETCH pixels; sets rows of the sheet, NaN where the photo ends. */
  lay: (rows: Rows, knots: readonly [Knots, Knots]) => number
  /** Turns rows to densities by log10 of clear light at knots above and below. */
  toDensities: (rows: Rows, knots: readonly [Float64Array, Float64Array]) => void
  /** What `toDensities` goes by. */
  goBy: (seen: Readonly<{ logs: Float32Array; table: Float32Array; highest: number }>) => void
  /** Means as of the light; they last as long. */
  reduced: (by: number) => Float32Array
  /** Of all pixels turned to densities: dark, clipped, glare, unseen, marked. */
  counts: Int32Array
  /** Lets another sheet be lent: its values go. */
  giveBack: () => void
}>

type Rows = Readonly<{ first: number; count: number }>

const STORED_BYTES = 1 << 20
const TABLE = 65_536
/** Code is made faster between two calls, never within one. */
const ROWS_A_CALL = 32

/**
 * Planes of a photo, filled with its light.
 *
 * @param tables light by stored value: three, or one for a grey file
 */
export function photoPlanes(
  file: Size & Readonly<{ data: StoredRows; channels: number; tables: readonly Float32Array[] }>,
): PhotoPlanes {
  const { widthPx, heightPx } = file
  const { memory, call } = kernelOf(photoPlanesCode)
  const rowBytes = widthPx * file.channels * file.data.BYTES_PER_ELEMENT
  const tablesAt = call('layOut', widthPx, heightPx, Math.max(STORED_BYTES, rowBytes))
  const { buffer } = memory
  for (const [at, table] of file.tables.entries()) {
    new Float32Array(buffer, tablesAt + 4 * TABLE * at, table.length).set(table)
  }
  fill(file, { buffer, call, rowBytes })
  const pixels = widthPx * heightPx
  const machine: Machine = { buffer, call }
  let isLent = false
  return {
    light: new Uint16Array(buffer, call('lightAt'), pixels),
    reduced: (by) => reduced(machine, { which: 0, size: file, by }),
    greys: (by) => {
      const { length } = reduced(machine, { which: 0, size: file, by })
      call('toGreys', length)
      return new Uint8Array(buffer, call('smallAt'), length).slice()
    },
    lend: (size) => {
      const isTooLarge =
        size.widthPx * size.heightPx > MOST_TIMES * pixels ||
        size.widthPx > 2 * Math.max(widthPx, heightPx)
      if (isLent || isTooLarge) return null
      isLent = true
      const giveBack = (): void => {
        isLent = false
      }
      return { ...lentSheet(machine, size), giveBack }
    },
  }
}

type Machine = Readonly<{
  buffer: ArrayBuffer
  call: ReturnType<typeof kernelOf>['call']
}>

function fill(
  { widthPx, heightPx, channels, data }: Parameters<typeof photoPlanes>[0],
  { buffer, call, rowBytes }: Machine & Readonly<{ rowBytes: number }>,
): void {
  const wide = data.BYTES_PER_ELEMENT === 2
  const storedAt = call('storedAt')
  const length = widthPx * channels
  const rows = Math.max(1, Math.floor(STORED_BYTES / rowBytes))
  for (let top = 0; top < heightPx; top += rows) {
    const count = Math.min(rows, heightPx - top)
    const band = data.subarray(top * length, (top + count) * length)
    const stored = wide
      ? new Uint16Array(buffer, storedAt, band.length)
      : new Uint8Array(buffer, storedAt, band.length)
    stored.set(band)
    call('toLight', top, count, channels, wide ? 1 : 0)
  }
}

/** A sheet may have so many times the photo's pixels, as the machine code lays out its memory. */
const MOST_TIMES = 2

function reduced(
  { buffer, call }: Machine,
  { which, size, by }: Readonly<{ which: 0 | 1; size: Size; by: number }>,
): Float32Array {
  const down = Math.floor(size.heightPx / by)
  for (let first = 0; first < down; first += ROWS_A_CALL) {
    call('reduce', which, size.widthPx, by, first, Math.min(ROWS_A_CALL, down - first))
  }
  const count = Math.floor(size.widthPx / by) * down
  return new Float32Array(buffer, call('smallAt'), count)
}

function lentSheet(machine: Machine, size: Size): Omit<LentSheet, 'giveBack'> {
  const { buffer, call } = machine
  const held = call('knotsHeld')
  const knotsAt = call('knotsPlace')
  const knots = Array.from(
    { length: 8 },
    (_, at) => new Float64Array(buffer, knotsAt + 8 * held * at, held),
  )
  const counts = new Int32Array(buffer, call('countsAt'), 5)
  const seen = { count: 0, highest: 0 }
  return {
    values: new Float32Array(buffer, call('sheetAt'), size.widthPx * size.heightPx),
    reduced: (by) => reduced(machine, { which: 1, size, by }),
    lay: ({ first, count }, [above, below]) => {
      for (const [at, { x, y, ground, gain }] of [above, below].entries()) {
        for (const [field, values] of [x, y, ground, gain].entries()) {
          knots[4 * at + field].set(values)
        }
      }
      return call('lay', first, count, size.widthPx)
    },
    toDensities: ({ first, count }, [above, below]) => {
      knots[0].set(above)
      knots[4].set(below)
      call('toDensities', first, count, size.widthPx, seen.count, seen.highest)
    },
    goBy: ({ logs, table, highest }) => {
      new Float32Array(buffer, call('logsAt'), logs.length).set(logs)
      new Float32Array(buffer, call('seenTableAt'), table.length).set(table)
      counts.fill(0)
      seen.count = table.length
      seen.highest = highest
    },
    counts,
  }
}
