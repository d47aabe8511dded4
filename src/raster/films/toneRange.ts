import { SOLID } from '../../core/halftone/cellThresholds.ts'
import type { ToneRange } from '../../core/separation/plan.ts'
import { emptyRow, type ToneRow, type Tones } from './tones.ts'

/**
 * Tones that a fabric cannot hold, moved to the nearest that it can: to nothing or the palest, to
 * the fullest or solid. All others stay.
 *
 * @param ranges one a plate; null: all of its tones stay
 */
export function tonesWithin(tones: Tones, ranges: readonly (ToneRange | null)[]): Tones {
  if (ranges.every((range) => range === null)) return tones
  const tables = ranges.map((range) => (range === null ? null : tableOf(range)))
  async function* rows(): AsyncGenerator<ToneRow> {
    const out = emptyRow(tones)
    for await (const row of tones.rows()) {
      for (let plate = 0; plate < out.length; plate++) looked(row[plate], tables[plate], out[plate])
      yield out
    }
  }
  return { ...tones, rows }
}

function looked(row: Uint16Array, table: Uint16Array | null | undefined, into: Uint16Array): void {
  if (table === null || table === undefined) into.set(row)
  else for (let x = 0; x < into.length; x++) into[x] = table[row[x]]
}

function tableOf({ least, most }: ToneRange): Uint16Array {
  return Uint16Array.from({ length: SOLID + 1 }, (_, tone) => {
    const share = tone / SOLID
    if (share < least) return share < least / 2 ? 0 : Math.round(least * SOLID)
    if (share > most) return share > (1 + most) / 2 ? SOLID : Math.round(most * SOLID)
    return tone
  })
}
