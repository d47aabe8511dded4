import { leakOfCode } from '../raster/leakCode.ts'
import type { LeakBand } from '../raster/leakMap.ts'
import { type Passage, passageFinder } from '../raster/passages.ts'
import { densityByteOfCodes, densityOfByte } from '../raster/tiles.ts'
import { findMarks, type MarkPlace, placeOf } from './doseForFilm.ts'
import { spreadOf } from './exposurePhysics.ts'
import { type FaintLines, faintLines } from './filmForecastFaint.ts'
import type { Setup } from './setup.ts'

/** A place to look at, and how far the marks that are about as weak reach around it. */
export type FilmFinding = MarkPlace &
  Readonly<{
    /** The share of the clear-film dose that leaks through: it opens up to gel dose / leak. */
    leakShare: number
    reach: Readonly<{ leftMm: number; topMm: number; rightMm: number; bottomMm: number }>
    axisMm: number
  }>

/** What a film's marks are like under one setup, before any dose is known. */
export type FilmFindings = Readonly<{
  kind: 'film findings'
  /** Marks are what is denser than this. */
  marksAbove: number
  /** The mark that sets the dose; null where nothing is denser than marksAbove. */
  weakestMark: MarkPlace | null
  /** Worst first. */
  findings: readonly FilmFinding[]
  /** The film's marks in equal shares: what leaks through each, palest first. */
  alongLeakShares: readonly number[]
  /** Length of all marks along their middle. */
  axisMm: number
  markCount: Readonly<{ long: number; short: number }>
  /** Faint lines apart from all others that may be underdrawing; null where there are none. */
  underdrawing: FaintLines | null
}>

/** Shares that the film's marks are told in: threads along the cloth. */
const THREADS = 9
/** Side of the cells that passages are made of, and when neighbours are one passage. */
const CELL_MM = 6
const ALIKE_DENSITY = 0.25
/** Cells with less of an axis than this are specks. */
const LEAST_AXIS_MM = 1
const MOST_FINDINGS = 7
/** What a point counts that is just dense enough to be a mark. */
const LEAST_WEIGHT = 0.01

/**
 * Finds the weak marks of a film from the bands of its leak map, as they are folded or as they
 * were stored.
 *
 * In equal shares and in passages each point of a mark's axis counts by how much denser it is than
 * marksAbove. So in a grain of pencil or a dry brush it makes no difference where that threshold
 * cuts, and in marks of one density a share is a share of length.
 *
 * @throws whatever the bands throw
 * @source weakest-mark
 */
export async function filmFindings(
  bands: AsyncIterable<LeakBand>,
  setup: Setup,
  options: Readonly<{
    film: Readonly<{ widthPx: number; heightPx: number; pixelUm: number }>
    marksAbove: number
    onRows?: (rowsDone: number) => void
  }>,
): Promise<FilmFindings> {
  const { film, marksAbove, onRows } = options
  const mmOfPx = film.pixelUm / 1000
  const passages = passageFinder(film, { cellPx: Math.max(8, Math.round(CELL_MM / mmOfPx)) })
  const faint = faintLines({ mmOfPx })
  const weights = new Float64Array(65536)
  const densityOf = Float32Array.from(densityByteOfCodes(), densityOfByte)
  const finder = findMarks(film, spreadOf(setup), {
    marksAbove,
    onAxis: (point) => {
      const weight = Math.max(0, (densityOf[point.filmCode] ?? 0) - marksAbove) + LEAST_WEIGHT
      passages.add(point, weight)
      weights[point.leakCode] = (weights[point.leakCode] ?? 0) + weight
      faint.add(point)
    },
  })
  for await (const band of bands) {
    finder.push(band)
    onRows?.(band.top + band.rows)
  }
  const found = finder.finish()
  const weakest = found.long[0] ?? found.shortTenth ?? undefined
  const list = passages.list({
    leastPoints: LEAST_AXIS_MM / mmOfPx,
    alikeDensity: ALIKE_DENSITY,
    most: MOST_FINDINGS,
  })
  return {
    kind: 'film findings',
    marksAbove,
    weakestMark: weakest === undefined ? null : placeOf(weakest, film),
    findings: list.map((passage) => findingOf(passage, film)),
    alongLeakShares: equalShares(weights),
    axisMm: sum(found.axisCodes) * mmOfPx,
    markCount: { long: found.longCount, short: found.shortCount },
    underdrawing: faint.found(),
  }
}

function findingOf(passage: Passage, film: Readonly<{ pixelUm: number }>): FilmFinding {
  const mmOfPx = film.pixelUm / 1000
  return {
    ...placeOf(passage, film),
    leakShare: leakOfCode(Math.max(1, passage.weak.leakCode)),
    reach: {
      leftMm: passage.left * mmOfPx,
      topMm: passage.top * mmOfPx,
      rightMm: passage.right * mmOfPx,
      bottomMm: passage.bottom * mmOfPx,
    },
    axisMm: passage.axisPoints * mmOfPx,
  }
}

/** The leak in the middle of each of equal shares of the marks, most leak first. */
function equalShares(weights: Float64Array): readonly number[] {
  const total = sum(weights)
  const shares: number[] = []
  let above = 0
  for (let code = weights.length - 1; code >= 0 && total > 0; code -= 1) {
    above += weights[code] ?? 0
    while (shares.length < THREADS && above >= ((shares.length + 0.5) / THREADS) * total) {
      shares.push(leakOfCode(Math.max(1, code)))
    }
  }
  return shares
}

function sum(counts: Float64Array): number {
  return counts.reduce((total, count) => total + count, 0)
}
