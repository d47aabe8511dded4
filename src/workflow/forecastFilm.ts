import { type ClassShares, leakLimits } from '../core/forecast/classes.ts'
import { smallestLines } from '../core/forecast/lines.ts'
import { spreadReachUm, stripShare } from '../core/forecast/spread.ts'
import { type Lu, lu } from '../core/units/quantity.ts'
import { classGrey, codeLimits, countCodes, sharesAt } from '../raster/classify.ts'
import type { Film } from '../raster/film.ts'
import { type LeakBand, leakMap } from '../raster/leakMap.ts'
import { expectFolding, setupDoses, spreadOf } from './exposurePhysics.ts'
import type { Setup } from './setup.ts'

/** The stencil that comes out of the washout at a dose. */
export type Forecast = Readonly<{
  kind: 'forecast'
  widthMm: number
  heightMm: number
  pixelUm: number
  doseLu: number
  gelDoseLu: number
  holdDoseLu: number
  throughDoseLu: number
  share: ClassShares
  sweep: readonly Readonly<{ doseLu: number; share: ClassShares }>[]
  smallest: Readonly<{
    openLineUm: number | null
    halfOpenLineUm: number | null
    closedLineUm: number | null
  }>
}>

export type ForecastQuestion = Readonly<{
  doseLu: Lu
  /** Doses in equal ratios, both ends included. */
  sweep?: Readonly<{ low: number; high: number; count: number }> | undefined
  /** Density of the film's solid marks, for the smallest lines. */
  solidDensity: number
}>

/** Rows of a class picture: 0 open, 128 in doubt, 255 closed. */
export type ClassRows = Readonly<{ rows: number; samples: Uint8Array }>

/** What else wants to see the leak map pass; told how many rows are done. */
export type Watcher = (band: LeakBand, rowsDone: number) => void

/**
 * Forecast of a film in one pass. The rows of the class picture come out as they are made; pull
 * them all, then ask for the answer.
 */
export function forecastFilm(
  film: Film,
  setup: Setup,
  question: ForecastQuestion,
  watch: readonly Watcher[] = [],
): Readonly<{ classes: () => AsyncGenerator<ClassRows>; answer: () => Forecast }> {
  const spread = spreadOf(setup)
  expectFolding(spread, film)
  const doses = setupDoses(setup)
  const limits = codeLimits(leakLimits(doses, question))
  const counts = new Float64Array(65536)
  let total = 0

  async function* classes(): AsyncGenerator<ClassRows> {
    let samples = new Uint8Array(0)
    for await (const band of leakMap(film, spread)) {
      if (samples.length < band.codes.length) samples = new Uint8Array(band.codes.length)
      const rows = samples.subarray(0, band.codes.length)
      countCodes(counts, band.codes)
      total += band.codes.length
      classGrey(band.codes, limits, rows)
      for (const watcher of watch) watcher(band, band.top + band.rows)
      yield { rows: band.rows, samples: rows }
    }
  }

  const answer = (): Forecast => {
    const { pixelUm } = film
    const share = (doseLu: number): ClassShares =>
      sharesAt({ counts, total }, leakLimits(doses, { doseLu: lu(doseLu) }))
    return {
      kind: 'forecast',
      widthMm: (film.widthPx * pixelUm) / 1000,
      heightMm: (film.heightPx * pixelUm) / 1000,
      pixelUm,
      doseLu: question.doseLu,
      ...doses,
      share: share(question.doseLu),
      sweep: sweepDoses(question.sweep).map((doseLu) => ({ doseLu, share: share(doseLu) })),
      smallest: smallestLines(
        {
          solid: 10 ** -question.solidDensity,
          strip: (halfWidthUm) => stripShare(halfWidthUm, spread),
          reachUm: Math.max(1, spreadReachUm(spread, 1e-9)),
        },
        leakLimits(doses, question),
      ),
    }
  }
  return { classes, answer }
}

/** Both ends, in equal ratios. */
function sweepDoses(sweep: ForecastQuestion['sweep']): readonly number[] {
  if (sweep === undefined) return []
  const { low, high, count } = sweep
  return Array.from({ length: count }, (_, at) =>
    at === count - 1 && count > 1 ? high : low * (high / low) ** (at / Math.max(1, count - 1)),
  )
}
