import type { Spread } from '../core/forecast/spread.ts'
import { COLUMN_GROUP, type LeakTiles, leakTiles, type TilePlan } from '../kernels/leakTiles.ts'
import type { Film } from './film.ts'
import { evenSpectrum } from './fourier.ts'
import { spreadKernel, spreadReachPx } from './spreadKernel.ts'
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
  /**
   * The rows' leak: the same to the bit whichever rows are asked for, if the film has all its rows
   * within `leakRowsAround` of them.
   */
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
  const { plan, clear } = tilePlan(film, spread)
  const { window, stride, codes, filmCodes, strip } = make(plan)
  const { high, margin } = plan
  const inner = high - 2 * margin
  return {
    async *bands(from, { top, end } = { top: 0, end: from.heightPx }) {
      // strips lie where the whole film's do: 32-bit floats round by where a tile begins
      const strips = {
        top: Math.floor(top / inner) * inner,
        end: Math.min(from.heightPx, Math.ceil(end / inner) * inner),
      }
      const cut = { ...strips, inner, margin, window, stride, clear }
      for await (const filled of filmWindows(from, cut)) {
        const first = Math.max(top, filled.top)
        const last = Math.min(end, filled.top + filled.rows)
        strip(last - filled.top)
        const [own, size] = [first - filled.top, last - filled.top].map((row) => row * widthPx)
        yield {
          top: first,
          rows: last - first,
          widthPx,
          codes: codes.subarray(own, size),
          filmCodes: filmCodes.subarray(own, size),
        }
      }
    },
  }
}

/** How many rows above and below must be there for some rows' leak to be that of the whole film. */
export function leakRowsAround(film: Readonly<{ pixelUm: number }>, spread: Spread): number {
  const { high, margin } = tileSize(spreadReachPx(spread, film))
  return high - margin - 1
}

/** The leak map of a whole film. */
export function leakMap(film: Film, spread: Spread): AsyncGenerator<LeakBand> {
  return leakMapper(film, spread).bands(film)
}

/** Margin: what neighbours spill into on each side, in whole groups of columns. */
function tileSize(reachPx: number): Pick<TilePlan, 'high' | 'wide' | 'margin'> {
  let high = 128
  while (reachPx > 0.15 * high) high *= 2
  const margin = Math.ceil(reachPx / COLUMN_GROUP) * COLUMN_GROUP
  return { high, wide: Math.max(256, high), margin }
}

/** `clear`: what stands for clear film in the window. */
function tilePlan(
  film: Omit<Film, 'bands' | 'heightPx'>,
  spread: Spread,
): Readonly<{ plan: TilePlan; clear: number }> {
  const kernel = spreadKernel(spread, film)
  const size = tileSize(kernel.reachPx)
  const cells = size.high * size.wide
  const filter = new Float32Array(evenSpectrum(kernel, size).map((value) => value / cells))
  const { widthPx, transmissionOf } = film
  const clearSample = transmissionOf?.length === 256 ? transmissionOf.indexOf(1) : -1
  const isCoded = clearSample >= 0
  const table = isCoded ? transmissionOf : null
  const plan = { ...size, widthPx, transmissionOf: table, filter }
  return { plan, clear: isCoded ? clearSample : 1 }
}
