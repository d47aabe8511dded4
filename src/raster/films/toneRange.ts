import { SOLID } from '../../core/halftone/cellThresholds.ts'
import { type PrintedTones, toneCurve } from '../../core/halftone/toneCurve.ts'
import type { ToneRange } from '../../core/separation/plan.ts'
import { emptyRow, type ToneRow, type Tones } from './tones.ts'

/** What becomes of an ink's tones on the way to its film. */
export type ToneChange = Readonly<{ tones: ToneRange | null; printed: PrintedTones | null }>

/**
 * Tones as the film must have them to print as asked, where it was measured what they print as. Of
 * those, the ones that a fabric cannot hold, moved to the nearest that it can: to nothing or the
 * palest, to the fullest or solid, but where scattered dots take them over. All others stay.
 *
 * @param changes one a plate
 */
export function tonesForFilm(tones: Tones, changes: readonly ToneChange[]): Tones {
  const tables = changes.map(tableOf)
  if (tables.every((table) => table === null)) return tones
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

function tableOf({ tones, printed }: ToneChange): Uint16Array | null {
  const range = tones === null || tones.scatters === true ? { least: 0, most: 1 } : tones
  if (printed === null && range.least === 0 && range.most === 1) return null
  const curve = printed === null ? null : toneCurve(printed)
  return Uint16Array.from({ length: SOLID + 1 }, (_, tone) => {
    if (tone === 0 || tone === SOLID) return tone
    const share = curve === null ? tone / SOLID : curve.filmShare(tone / SOLID)
    return Math.round(SOLID * heldShare(share, range))
  })
}

function heldShare(share: number, { least, most }: ToneRange): number {
  if (share < least) return share < least / 2 ? 0 : least
  if (share > most) return share > (1 + most) / 2 ? 1 : most
  return share
}
