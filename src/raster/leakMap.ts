import type { Spread } from '../core/forecast/spread.ts'
import { COLUMN_GROUP, type LeakTiles, leakTiles, type TilePlan } from '../kernels/leakTiles.ts'
import type { Film } from './film.ts'
import { evenSpectrum } from './fourier.ts'
import { spreadKernel } from './spreadKernel.ts'
import { filmWindows } from './window.ts'

/** Rows of the leak map with the film's own rows beside them; valid until the next is asked for. */
export type LeakBand = Readonly<{
  top: number
  rows: number
  widthPx: number
  /** rows × widthPx codes of leakCode.ts. */
  codes: Uint16Array
  /** The film's own transmission at the same places, coded alike. */
  filmCodes: Uint16Array
}>

/** Which rows of a film; all of them unless said. */
export type Rows = Readonly<{ top: number; end: number }>

/** Makes leak maps of one film, or of parts of it; keeps what all of them share. One at a time. */
export type LeakMapper = Readonly<{
  /** How many rows above and below have a part in a row's leak. */
  reachPx: number
  bands: (film: Film, rows?: Rows) => AsyncGenerator<LeakBand>
}>

/**
 * Film transmission folded with the spread, dose-free: at each pixel's middle the share of the
 * clear-film dose that arrives there. Outside the film lies clear film.
 *
 * Overlap-save tiles, two at a time as real and imaginary part of one Fourier transform (the
 * kernel is even, so its spectrum is real). Columns that see one value alone are that value; tiles
 * begin where another comes in sight. Memory: one strip of the film's width, whatever its height.
 *
 * @param make what folds the strips: machine code, or the same in plain loops
 * @returns bands from top to bottom; agrees with a direct sum to the rounding of leakCode.ts
 * @source overlap-save, spread-contract
 */
export function leakMapper(
  film: Omit<Film, 'bands' | 'heightPx'>,
  spread: Spread,
  make: (plan: TilePlan) => LeakTiles = leakTiles,
): LeakMapper {
  const { widthPx } = film
  const { reachPx, plan, clear } = tilePlan(film, spread)
  const { window, stride, codes, filmCodes, strip } = make(plan)
  const { high, margin } = plan
  return {
    reachPx,
    async *bands(from, { top, end } = { top: 0, end: from.heightPx }) {
      const inner = high - 2 * margin
      const cut = { top, end, inner, margin, reachPx, window, stride, clear }
      for await (const filled of filmWindows(from, cut)) {
        strip(filled.rows)
        const size = filled.rows * widthPx
        yield {
          ...filled,
          widthPx,
          codes: codes.subarray(0, size),
          filmCodes: filmCodes.subarray(0, size),
        }
      }
    },
  }
}

/** The leak map of a whole film. */
export function leakMap(film: Film, spread: Spread): AsyncGenerator<LeakBand> {
  return leakMapper(film, spread).bands(film)
}

type Cut = Readonly<{
  reachPx: number
  plan: TilePlan
  /** What stands for clear film. */
  clear: number
}>

function tilePlan(film: Omit<Film, 'bands' | 'heightPx'>, spread: Spread): Cut {
  const kernel = spreadKernel(spread, film)
  const { reachPx } = kernel
  const margin = Math.ceil(reachPx / COLUMN_GROUP) * COLUMN_GROUP
  let high = 128
  while (reachPx > 0.15 * high) high *= 2
  const wide = Math.max(256, high)
  const filter = Float32Array.from(
    evenSpectrum(kernel, { high, wide }),
    (value) => value / (high * wide),
  )
  const { widthPx, transmissionOf } = film
  const clearSample = transmissionOf?.length === 256 ? transmissionOf.indexOf(1) : -1
  const isCoded = clearSample >= 0
  const table = isCoded ? transmissionOf : null
  const plan = { high, wide, margin, widthPx, transmissionOf: table, filter }
  return { reachPx, plan, clear: isCoded ? clearSample : 1 }
}
