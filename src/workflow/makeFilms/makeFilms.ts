import { Failure } from '../../core/failure.ts'
import type { FilmPlan } from '../../core/separation/plan.ts'
import { layersOfPlates } from '../../core/ticket/plateLayer.ts'
import type { Bilevel } from '../../formats/bilevel.ts'
import type { FilmPage } from '../../formats/filmPage.ts'
import type { Artwork } from '../../raster/films/artwork.ts'
import type { FilmSize } from './filmSize.ts'
import { type InkAtOnePlace, inkAtOnePlace } from './inkAtOnePlace.ts'
import { bottomStrip, topStrip } from './markItems.ts'
import { nestedSheets } from './nestedSheets.ts'
import { type PageTools, pageBits, stripOf } from './pageBits.ts'
import { hasMarks, pageLayout } from './pageLayout.ts'
import { type Plates, platesOf } from './plates.ts'
import { type Proof, proofOf } from './proof.ts'
import {
  type FilmRowsRange,
  filmParts,
  type PartCounts,
  type Spool,
  screenedPlates,
  screenPart,
} from './screenPlates.ts'
import { filmPages } from './sheets.ts'

/** One plate's film, whose bits wait in a spool. */
export type MadeFilm = Readonly<{
  ink: string
  /** As its label says: the ink, before it its layer's short name. */
  name: string
  /** How much of the artwork is black, counted from the bits. */
  coverageShare: number
  /** For a PDF: one page, or one for each sheet. */
  pages: () => readonly FilmPage[]
  /** For a TIFF: the whole film. */
  bits: () => Bilevel
}>

export type MadeFilms = Readonly<{
  widthMm: number
  heightMm: number
  films: readonly MadeFilm[]
  /** All films side by side, where the plan asks for that: one PDF in place of one each. */
  nested: (() => readonly FilmPage[]) | null
  proof: Proof
  ink: InkAtOnePlace
}>

export type FilmTools = PageTools &
  Readonly<{
    /** One place for bits a plate. */
    spools: readonly Spool[]
    /** Threads that screen parts of large films, to the same bits; without them all is done here. */
    elsewhere?: Elsewhere
    /** Of the artwork's ticket, in the order of printing: a film bears its layer's short name. */
    layers?: readonly Readonly<{ shortName: string; ink: string | null }>[]
    onShare: (share: number) => void
  }>

/** A part of a film's rows that was screened, and one place for its bits a plate. */
export type ScreenedPart = Readonly<{ counts: PartCounts; spools: readonly Spool[] }>

export type Elsewhere = Readonly<{
  /** How many parts are screened beside this thread's own. */
  threads: number
  screen: (
    part: Readonly<{ plan: FilmPlan; size: FilmSize; rows: FilmRowsRange }>,
    onShare: (share: number) => void,
  ) => Promise<ScreenedPart>
  /** Ends what is under way, and closes all spools. */
  close: () => Promise<void>
}>

/** How many plates a plan has: what `FilmTools` must bring a spool for each. */
export function plateCount({ inks, underbase }: FilmPlan): number {
  return inks.length + (underbase === null ? 0 : 1)
}

/** Pages with marks are drawn up to this width. */
const MOST_MARKED_PX = 30_000

/**
 * Films of an artwork: parted into inks, enlarged to the film's pixels, edges moved, screened.
 *
 * Only a few rows are in memory at a time. The same artwork and plan give the same bits.
 *
 * @param artwork in no more pixels than the film's
 * @throws Failure where marks are asked for on a film too wide for them; what the artwork throws
 */
export async function makeFilms(
  artwork: Artwork,
  { plan, size, tools }: Readonly<{ plan: FilmPlan; size: FilmSize; tools: FilmTools }>,
): Promise<MadeFilms> {
  const { marks, sheet } = plan
  const layout = pageLayout(size, marks)
  if (hasMarks(marks) && layout.widthPx > MOST_MARKED_PX) {
    const message = `The film is ${layout.widthPx} pixels wide, and marks are drawn up to ${MOST_MARKED_PX}; leave the marks out or lower resolutionDpi.`
    throw new Failure('too large', message, { field: 'marks' })
  }
  const parted = platesOf(artwork, plan, size)
  const parts = await screenParts(parted, { plan, size, tools })
  const { screened, coverage } = screenedPlates(parts, { size, plates: parted.plates.length })
  const { letters, raster } = tools
  const bottom = stripOf(() => bottomStrip({ layout, marks, letters }), { layout, raster })
  const plates = parted.plates.map(({ name }) => name)
  const layers = layersOfPlates(tools.layers ?? [], { plates })
  const films = screened.map((film, at): MadeFilm => {
    const plate = parted.plates[at]
    const layer = layers[at] ?? null
    if (plate === undefined) throw new RangeError('plates: expected one for each film')
    const name = layer === null ? plate.name : `${layer.shortName}, ${plate.name}`
    const words = {
      name,
      number: at + 1,
      of: screened.length,
      about: 'Read it from above the glass.',
    }
    const top = stripOf(() => topStrip(words, { layout, marks, letters }), { layout, raster })
    const hasTones = plan.halftone !== null
    const bits = (): Bilevel =>
      pageBits(film, { top, bottom, screen: plate.screen, layout, marks, hasTones })
    return {
      ink: plate.name,
      name,
      coverageShare: film.coverageShare,
      pages: () => filmPages(bits, { layout, sheet, name, letters }),
      bits,
    }
  })
  // white under all is seen on coloured stock alone
  const isSeen = (at: number): boolean =>
    plan.paper !== undefined || parted.plates[at]?.isUnderbase === false
  const seen = { ...coverage, shares: coverage.shares.filter((_, at) => isSeen(at)) }
  const inks = parted.plates.filter((_, at) => isSeen(at)).map(({ ink }) => ink)
  return {
    widthMm: layout.widthMm,
    heightMm: layout.heightMm,
    films,
    nested:
      sheet?.nest === true
        ? () =>
            nestedSheets(
              films.map(({ bits }) => bits),
              { layout, sheet },
            )
        : null,
    ink: inkAtOnePlace(
      {
        ...coverage,
        shares: coverage.shares.filter((_, at) => parted.plates[at]?.isUnderbase === false),
      },
      plan,
    ),
    proof: proofOf(seen, { inks, paper: plan.paper }),
  }
}

/** So many pixels of all plates take much longer than a thread takes to begin. Judged. */
const WORTH_A_THREAD = 4e8

/** All rows here, or each thread its part; whoever is done first waits for the others. */
async function screenParts(
  parted: Plates,
  { plan, size, tools }: Readonly<{ plan: FilmPlan; size: FilmSize; tools: FilmTools }>,
): Promise<readonly ScreenedPart[]> {
  const { spools, elsewhere, onShare } = tools
  const pixels = size.widthPx * size.heightPx * parted.plates.length
  const isShared = elsewhere !== undefined && pixels >= WORTH_A_THREAD
  const [own, ...others] = filmParts(size, isShared ? 1 + elsewhere.threads : 1)
  if (own === undefined) throw new RangeError('size: expected at least one row')
  const shares = [own, ...others].map(() => 0)
  const told = (part: number) => (share: number) => {
    shares[part] = share
    onShare(shares.reduce((sum, each) => sum + each, 0) / shares.length)
  }
  const begun = Promise.all(
    others.map((rows, at) => {
      if (elsewhere === undefined) throw new RangeError('elsewhere: expected threads')
      return elsewhere.screen({ plan, size, rows }, told(at + 1))
    }),
  )
  begun.catch(() => undefined) // it is told below, once this thread has done its own
  const counts = await screenPart(parted, { size, rows: own, spools, onShare: told(0) })
  return [{ counts, spools }, ...(await begun)]
}
