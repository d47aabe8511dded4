import { SOLID } from '../../core/halftone/solid.ts'
import { type PrintedTones, toneCurve } from '../../core/halftone/toneCurve.ts'
import type { ToneRange } from '../../core/separation/plan.ts'
import { filmRowsHolding, type HeldTones } from '../../kernels/filmRows.ts'
import { emptyRow, lookedUp, type ToneRow, type Tones } from './tones.ts'

/** What becomes of an ink's tones on the way to its film. */
export type ToneChange = Readonly<{
  tones: ToneRange | null
  printed: PrintedTones | null
  /** What a screen draws for each tone; null: the tones themselves. */
  table: Uint16Array | null
}>

/**
 * Tones as the film must have them to print as asked, where it was measured what they print as, and
 * as a screen draws them: before they are enlarged, where there are fewer.
 *
 * @param changes one a plate
 */
export function tonesAsDrawn(tones: Tones, changes: readonly ToneChange[]): Tones {
  const tables = changes.map(tableAsDrawn)
  if (tables.every((table) => table === null)) return tones
  async function* rows(from = 0): AsyncGenerator<ToneRow> {
    const out = emptyRow(tones)
    for await (const row of tones.rows(from)) {
      throughTables(row, tables, out)
      yield out
    }
  }
  return { ...tones, rows }
}

// Loops over pixels stand in functions of their own: within a generator they are slow.

function throughTables(row: ToneRow, tables: readonly (Uint16Array | null)[], out: ToneRow): void {
  out.forEach((into, plate) => {
    const table = tables[plate]
    if (table === null || table === undefined) into.set(row[plate])
    else lookedUp(row[plate], table, into)
  })
}

/**
 * Tones that went through `tonesAsDrawn` where a fabric cannot hold them, moved to the nearest that it
 * can: to nothing or the palest, to the fullest or solid, but where scattered dots take them over. All
 * others stay. Rows are changed where they lie.
 *
 * @param changes one a plate
 */
export function tonesHeld(tones: Tones, changes: readonly ToneChange[]): Tones {
  const ranges = changes.map(heldOf)
  if (ranges.every((range) => range === null)) return tones
  async function* rows(from = 0): AsyncGenerator<ToneRow> {
    for await (const row of tones.rows(from)) {
      ranges.forEach((range, plate) => {
        if (range !== null) hold(row[plate], range)
      })
      yield row
    }
  }
  return { ...tones, rows }
}

function hold(row: Uint16Array, range: HeldTones): void {
  const rows = filmRowsHolding(row)
  if (rows !== null) {
    rows.limit(row, range)
    return
  }
  const { nothingBelow, least, most, solidAbove } = range
  for (let x = 0; x < row.length; x++) {
    const tone = row[x]
    if (tone < nothingBelow) row[x] = 0
    else if (tone < least) row[x] = least
    else if (tone > solidAbove) row[x] = SOLID
    else if (tone > most) row[x] = most
  }
}

/** What `tonesAsDrawn` looks tones up in; null: they stay. */
export function tableAsDrawn({ printed, table }: Omit<ToneChange, 'tones'>): Uint16Array | null {
  if (printed === null) return table
  const { filmShare } = toneCurve(printed)
  return Uint16Array.from({ length: SOLID + 1 }, (_, tone) => {
    if (tone === 0 || tone === SOLID) return tone
    const film = Math.round(SOLID * filmShare(tone / SOLID))
    return table?.[film] ?? film
  })
}

function heldOf({ tones, table }: ToneChange): HeldTones | null {
  if (tones === null || tones.scatters === true || (tones.least === 0 && tones.most === 1)) {
    return null
  }
  const drawn = (share: number): number => {
    const tone = Math.round(SOLID * share)
    return table?.[tone] ?? tone
  }
  const { least, most } = tones
  return {
    // half way from nothing to the palest, and from the fullest to solid
    nothingBelow: drawn(least / 2),
    least: drawn(least),
    most: drawn(most),
    solidAbove: drawn((1 + most) / 2),
  }
}
