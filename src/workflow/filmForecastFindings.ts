import type { BlockDeflater } from '../formats/tileStore.ts'
import type { Film } from '../raster/film.ts'
import { type FilmPart, filmParts } from '../raster/filmParts.ts'
import { leakOfCode } from '../raster/leakCode.ts'
import { leakRowsAround, type Rows } from '../raster/leakMap.ts'
import { rowsAround } from '../raster/markRows.ts'
import { markWidths } from '../raster/markWidths.ts'
import { type Passage, passageFinder } from '../raster/passages.ts'
import { fineParts } from '../raster/pyramid.ts'
import { densityByteOfCodes, densityOfByte } from '../raster/tiles.ts'
import { markFinder } from '../raster/weakMarks.ts'
import { type MarkPlace, markLimits, placeOf, whichMarks } from './doseForFilm.ts'
import { spreadOf } from './exposurePhysics.ts'
import { type FaintLines, faintLines } from './filmForecastFaint.ts'
import { type MarkPart, type MarkTask, markHand } from './filmMarksPart.ts'
import type { StoredTile } from './filmPicturePart.ts'
import { type Hand, inTurns } from './inTurns.ts'
import type { Setup } from './setup.ts'
import { MARKS_ABOVE } from './watchStencil.ts'

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
  /** Its marks in equal shares: how wide each is, narrowest first; films read before it was kept have none. */
  widthsUm?: readonly number[]
  /** Length of all marks along their middle. */
  axisMm: number
  markCount: Readonly<{ long: number; short: number }>
  /** Faint lines apart from all others that may be underdrawing; null where there are none. */
  underdrawing: FaintLines | null
}>

/** Shares that the film's marks are told in: threads along the cloth. */
const THREADS = 9
/** Shares that their widths are told in. */
const WIDTHS = 20
/** Side of the cells that passages are made of, and when neighbours are one passage. */
const CELL_MM = 6
const ALIKE_DENSITY = 0.25
/** Cells with less of an axis than this are specks. */
const LEAST_AXIS_MM = 1
const MOST_FINDINGS = 7
/** What a point counts that is just dense enough to be a mark. */
const LEAST_WEIGHT = 0.01

/** Those who find the marks in parts of a film, told what all parts have in common. */
export type MarkHands = (task: MarkTask) => readonly Hand<FilmPart, MarkPart>[]

/** Tiles of the levels below `finest`, each put in an order that depends on the film alone. */
export type FineTiles = Readonly<{
  finest: number
  deflater: BlockDeflater
  put: (tile: StoredTile) => Promise<void>
}>

/** Pixels of a part, about, and its rows. */
const PART_PIXELS = 2 ** 23
const PART_ROWS = { least: 128, most: 1024 }

/**
 * Finds the weak marks of a film in one pass. The findings are the same however many hands there
 * are.
 *
 * In equal shares and in passages each point of a mark's axis counts by how much denser it is than
 * marksAbove. So in a grain of pencil or a dry brush it makes no difference where that threshold
 * cuts, and in marks of one density a share is a share of length.
 *
 * @param hands one in this thread unless given
 * @param fine tiles that the film's picture has not, to be made in the same pass
 * @param onRows told how many of the film's rows are done
 * @throws what the film's bands or the hands throw
 * @source weakest-mark
 */
export async function filmFindings(
  film: Film,
  setup: Setup,
  options: Readonly<{
    marksAbove: number
    hands?: MarkHands
    fine?: FineTiles
    onRows?: (rowsDone: number) => void
  }>,
): Promise<FilmFindings> {
  const { marksAbove } = options
  const mmOfPx = film.pixelUm / 1000
  const passages = passageFinder(film, { cellPx: Math.max(8, Math.round(CELL_MM / mmOfPx)) })
  const faint = faintLines({ mmOfPx })
  const widths = markWidths()
  const weights = new Float64Array(65536)
  const densityOf = Float32Array.from(densityByteOfCodes(), densityOfByte)
  const finder = markFinder({
    ...whichMarks(film),
    onAxis: (point) => {
      const weight = Math.max(0, (densityOf[point.filmCode] ?? 0) - marksAbove) + LEAST_WEIGHT
      passages.add(point, weight)
      widths.add(point, weight)
      weights[point.leakCode] = (weights[point.leakCode] ?? 0) + weight
      faint.add(point)
    },
  })
  for await (const part of marksFound(film, setup, options)) {
    for (const rows of part.rows) finder.push(rows)
    for (const tile of part.tiles) await options.fine?.put(tile)
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
    widthsUm: widths.shares(WIDTHS).map((widthPx) => widthPx * film.pixelUm),
    axisMm: sum(found.axisCodes) * mmOfPx,
    markCount: { long: found.longCount, short: found.shortCount },
    underdrawing: faint.found(),
  }
}

/** The rows of the film's marks from top to bottom, found by whoever is free. */
function marksFound(
  film: Film,
  setup: Setup,
  { marksAbove, hands, fine, onRows }: Parameters<typeof filmFindings>[2],
): AsyncGenerator<MarkPart> {
  const { widthPx, heightPx, pixelUm, transmissionOf } = film
  const spread = spreadOf(setup)
  const limits = markLimits(film, spread, { marksAbove })
  const task = {
    film: { widthPx, heightPx, pixelUm, transmissionOf },
    spread,
    limits,
    fine: fine === undefined ? null : { finest: fine.finest, marksAbove: MARKS_ABOVE },
  }
  const parts = fine === undefined ? markParts(film) : fineParts(film, fine)
  const margin = rowsAround(limits) + leakRowsAround(film, spread)
  const others = parts.length === 1 ? undefined : hands?.(task)
  let rowsDone = 0
  return inTurns(
    filmParts(film, { parts, margin }),
    (others ?? [markHand(task, { deflater: fine?.deflater ?? null })]).map(
      (hand) => async (part) => {
        const found = await hand(part)
        rowsDone += part.rows.end - part.rows.top
        onRows?.(rowsDone)
        return found
      },
    ),
  )
}

function markParts({ widthPx, heightPx }: Film): readonly Rows[] {
  const high = Math.min(PART_ROWS.most, Math.max(PART_ROWS.least, PART_PIXELS / widthPx))
  const count = Math.ceil(heightPx / high)
  const edge = (at: number): number => Math.round((heightPx * at) / count)
  return Array.from({ length: count }, (_, at) => ({ top: edge(at), end: edge(at + 1) }))
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
