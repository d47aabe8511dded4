import { expectIn, type Range } from '../units/range.ts'

/** Minutes that each micrometre of a wet water-based ink takes in a rack at 20 °C. Judged. */
const MIN_PER_UM = 1

const DRY: Range = { name: 'dryMin', low: 0, high: 10_000, unit: 'min' }
const PULL: Range = { name: 'pullSec', low: 1, high: 3600, unit: 's' }
const SHEETS: Range = { name: 'sheets', low: 1, high: 100_000, unit: 'sheets', whole: true }
const SHELVES: Range = { name: 'shelves', low: 1, high: 100_000, unit: 'shelves', whole: true }

/**
 * Until the next layer can go over a wet film.
 *
 * @param wetFilmUm 0 … 500 um
 * @source drying-practice
 * @limits water-based ink on absorbent paper, 20 °C, half damp air, no fan: feel the sheet
 */
export function usualDryMin(wetFilmUm: number): number {
  expectIn(wetFilmUm, { name: 'wetFilmUm', low: 0, high: 500, unit: 'um' })
  return 5 * Math.max(2, Math.round((MIN_PER_UM * wetFilmUm) / 5))
}

/** How long one layer of an edition takes, and what lies in the rack. */
export type LayerTime = Readonly<{
  /** Sheets that lie wet at once: so many shelves let the press run without a stop. */
  shelvesWanted: number
  /** From the first pull to the last. */
  pullMin: number
  /** From the first pull until the last sheet is dry. */
  untilDryMin: number
  /** Of pullMin: the press stood, for the rack was full. */
  waitMin: number
}>

/**
 * One layer through the rack: a sheet each pullSec, each on a shelf until it is dry. With fewer
 * shelves than lie wet at once the press waits for the sheet pulled that many before.
 *
 * @param shelves of the rack; null: enough
 * @throws RangeError outside of the ranges
 * @source little1961
 */
export function layerTime({
  sheets,
  pullSec,
  dryMin,
  shelves,
}: Readonly<{
  sheets: number
  pullSec: number
  dryMin: number
  shelves: number | null
}>): LayerTime {
  expectIn(sheets, SHEETS)
  expectIn(pullSec, PULL)
  expectIn(dryMin, DRY)
  if (shelves !== null) expectIn(shelves, SHELVES)
  const pull = pullSec / 60
  // of the sheets pulled in dryMin, and the one that just left the press
  const shelvesWanted = Math.min(sheets, Math.floor(dryMin / pull + 1e-9) + 1)
  const at = new Float64Array(sheets)
  for (let sheet = 0; sheet < sheets; sheet++) {
    const inTurn = sheet === 0 ? 0 : (at[sheet - 1] ?? 0) + pull
    const before = shelves === null ? -1 : sheet - shelves
    at[sheet] = before < 0 ? inTurn : Math.max(inTurn, (at[before] ?? 0) + dryMin)
  }
  const last = at[sheets - 1] ?? 0
  return {
    shelvesWanted,
    pullMin: last + pull,
    untilDryMin: last + pull + dryMin,
    waitMin: Math.max(0, last - (sheets - 1) * pull),
  }
}
