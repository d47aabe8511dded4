import type { Spread } from '../core/forecast/spread.ts'
import { type LeakTiles, leakTiles, type TilePlan } from '../kernels/leakTiles.ts'
import type { Film } from './film.ts'
import { forward, fourierSquare } from './fourier.ts'
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
 * kernel is even, so its spectrum is real). A tile whose window is all of one value is that value.
 * Memory: one strip of the film's width, whatever its height.
 *
 * @param make what folds the strips: machine code, or the same in plain loops
 * @returns bands from top to bottom; agrees with a direct sum to the rounding of leakCode.ts
 * @source overlap-save, spread-contract
 */
export function leakMapper(
  film: Readonly<{ widthPx: number; pixelUm: number }>,
  spread: Spread,
  make: (plan: TilePlan) => LeakTiles = leakTiles,
): LeakMapper {
  const { widthPx } = film
  const plan = tilePlan(film, spread)
  const { values, stride, codes, filmCodes, strip } = make(plan)
  const { margin } = plan
  return {
    reachPx: margin,
    async *bands(from, { top, end } = { top: 0, end: from.heightPx }) {
      const inner = plan.side - 2 * margin
      for await (const window of filmWindows(from, { top, end, inner, margin, values, stride })) {
        strip(window.rows)
        const size = window.rows * widthPx
        yield {
          ...window,
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

function tilePlan(film: Readonly<{ widthPx: number; pixelUm: number }>, spread: Spread): TilePlan {
  const { reachPx, weights } = spreadKernel(spread, film)
  let side = 128
  while (reachPx > 0.15 * side) side *= 2
  const square = fourierSquare(side)
  const { cos, sin, re, stride } = square
  const across = 2 * reachPx + 1
  for (let y = -reachPx; y <= reachPx; y += 1) {
    for (let x = -reachPx; x <= reachPx; x += 1) {
      const at = ((y + side) % side) * stride + ((x + side) % side)
      re[at] = weights[(y + reachPx) * across + x + reachPx] / (side * side)
    }
  }
  forward(square)
  const filter = { values: re, stride }
  return { side, margin: reachPx, widthPx: film.widthPx, cos, sin, filter }
}
