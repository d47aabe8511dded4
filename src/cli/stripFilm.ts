import type { Strip } from '../core/calibration/strip.ts'
import { Failure } from '../core/failure.ts'
import { lu } from '../core/units/quantity.ts'
import type { BitBand } from '../formats/bilevel.ts'
import type { FilmPage } from '../formats/filmPage.ts'
import type { TestFilm } from '../workflow/papers/testFilm.ts'
import { FORCE_SWITCH, type Given, type Option } from './arguments.ts'
import type { Io } from './command.ts'
import { progressOn } from './progress.ts'
import { dayOf, numberIn, oneOf, path } from './reads.ts'

const FILM: Option<string> = {
  name: 'film',
  about: 'write the film of the strip, at true size, with what to set for each band',
  needed: false,
  reads: path({ what: 'film', shown: 'OUT.pdf' }),
}

const TIFF: Option<string> = {
  name: 'tiff',
  about: 'write the same film as bits',
  needed: false,
  reads: path({ what: 'picture of the film', shown: 'OUT.tif' }),
}

const USUAL_DPI = 720

/** Below this the thinnest reed falls between pixels; above it no film printer goes. */
const DPI: Option<number> = {
  name: 'resolution-dpi',
  about: `pixels to the inch of --tiff; ${USUAL_DPI} unless given`,
  needed: false,
  reads: numberIn(
    { name: 'resolutionDpi', low: 300, high: 2880, unit: 'dpi' },
    { what: 'resolution', units: 'pixels to the inch', like: USUAL_DPI, shown: 'DPI' },
  ),
}

const PAPER: Option<'a4' | 'letter'> = {
  name: 'paper',
  about: 'the sheet: a4 or letter; a4 unless given',
  needed: false,
  reads: oneOf(['a4', 'letter'], { what: 'paper', shown: 'a4|letter' }),
}

const DATE: Option<string> = {
  name: 'date',
  about: 'the day that stands on the film; none unless given',
  needed: false,
  reads: dayOf('date'),
}

export const STRIP_FILM_OPTIONS: readonly Option[] = [FILM, TIFF, DPI, PAPER, DATE, FORCE_SWITCH]

/** What the film says: doses that a counter can be set to, and where its bands end on the sheet. */
export type FilmOfStrip = Readonly<{
  bands: Strip['bands']
  incrementsLu: Strip['incrementsLu']
  /** From the page's top, the first band's upper edge first. */
  coverMm: readonly number[]
}>

/**
 * Writes the film where one is asked for.
 *
 * @returns null where none is
 * @throws Failure 'wrong input' for options that say nothing without a film, too few or many bands,
 *   or a place that cannot be written
 */
export async function writeStripFilm(
  planned: Strip,
  given: Given,
  io: Io,
): Promise<FilmOfStrip | null> {
  const [pdf, tiff] = [given.of(FILM), given.of(TIFF)]
  const outs = [pdf, tiff].filter((out) => out !== undefined)
  refuseIdle(given, { film: outs.length > 0, tiff: tiff !== undefined })
  if (outs.length === 0) return null
  const { refuseExisting, refuseSamePlace } = await import('../decode/files.ts')
  for (const out of outs) await refuseExisting(out, { force: given.has(FORCE_SWITCH) })
  refuseSamePlace(outs)
  const { film, told } = await filmOf(planned, given)
  const { testFilmPage } = await import('../workflow/papers/testFilm.ts')
  const { openLetters } = await import('../decode/glyphs.ts')
  const page = testFilmPage(film, { letters: await openLetters() })
  if (pdf !== undefined) await writePdf(pdf, page, given)
  if (tiff !== undefined) await writeTiff(tiff, page, { given, io })
  return told
}

/** What is said of a film when there is none, or of a TIFF. */
function refuseIdle(given: Given, asked: Readonly<{ film: boolean; tiff: boolean }>): void {
  const idle = [
    ...(asked.tiff ? [] : [{ option: DPI, needs: TIFF }]),
    ...(asked.film ? [] : [PAPER, DATE, FORCE_SWITCH].map((option) => ({ option, needs: FILM }))),
  ].find(({ option }) => given.has(option))
  if (idle === undefined) return
  const { option, needs } = idle
  const message = `--${option.name} says nothing without --${needs.name}; give both or neither.`
  throw new Failure('wrong input', message, { field: option.name })
}

async function filmOf(
  planned: Strip,
  given: Given,
): Promise<Readonly<{ film: TestFilm; told: FilmOfStrip }>> {
  const { settableDoses, counterSettings } = await import('../workflow/papers/settableDoses.ts')
  const { FILM_BANDS, testFilmCoverMm } = await import('../workflow/papers/testFilmLayout.ts')
  const bands = planned.bands.length
  if (bands < FILM_BANDS.low || bands > FILM_BANDS.high) {
    const message = `A film holds ${FILM_BANDS.low} to ${FILM_BANDS.high} bands. You asked for ${bands}.`
    throw new Failure('wrong input', message, { field: 'bands' })
  }
  const [paper = 'a4', date] = [given.of(PAPER), given.of(DATE)]
  const bandCounts = settableDoses(planned.bands.map(({ doseLu }) => doseLu))
  return {
    film: {
      bandCounts,
      countsIn: 'light units',
      paper,
      ...(date === undefined ? {} : { date }),
    },
    told: {
      bands: bandCounts.map((doseLu, at) => ({ number: at + 1, doseLu: lu(doseLu) })),
      incrementsLu: counterSettings(bandCounts.toReversed()).map(lu),
      coverMm: testFilmCoverMm({ bands, paper }),
    },
  }
}

async function writePdf(out: string, page: FilmPage, given: Given): Promise<void> {
  const { writeWhole } = await import('../decode/files.ts')
  const { deflater } = await import('../decode/deflater.ts')
  const { writeFilmPdf } = await import('../formats/filmPdf.ts')
  const date = given.of(DATE)
  await writeWhole(out, { force: given.has(FORCE_SWITCH) }, (sink) =>
    writeFilmPdf([page], {
      sink,
      deflater: deflater({ level: 9 }),
      title: 'Test film for doses',
      ...(date === undefined ? {} : { madeAt: `${date}T00:00:00Z` }),
    }),
  )
}

async function writeTiff(
  out: string,
  page: FilmPage,
  { given, io }: Readonly<{ given: Given; io: Io }>,
): Promise<void> {
  const { writeWhole } = await import('../decode/files.ts')
  const { pageRaster } = await import('../decode/pageRaster.ts')
  const { writeBilevelTiff } = await import('../formats/bilevelTiff.ts')
  const film = pageRaster(page, { resolutionDpi: given.of(DPI) ?? USUAL_DPI })
  const progress = progressOn(io.stderr, 'strip')
  async function* bands(): AsyncGenerator<BitBand> {
    let rows = 0
    for await (const band of film.bands) {
      yield band
      rows += band.rows
      progress.at(rows / film.heightPx)
    }
  }
  await writeWhole(out, { force: given.has(FORCE_SWITCH) }, (sink) =>
    writeBilevelTiff({ ...film, bands: bands() }, { sink }),
  )
  progress.done()
}
