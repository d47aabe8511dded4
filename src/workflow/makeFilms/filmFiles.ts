import type { FilmPlan } from '../../core/separation/plan.ts'
import { writeBilevelTiff } from '../../formats/bilevelTiff.ts'
import type { ByteSink, Deflater } from '../../formats/bytes.ts'
import type { FilmPage } from '../../formats/filmPage.ts'
import { writeFilmPdf } from '../../formats/filmPdf.ts'
import type { Artwork } from '../../raster/films/artwork.ts'
import { type FilmSize, filmSize } from './filmSize.ts'
import type { InkAtOnePlace } from './inkAtOnePlace.ts'
import { type FilmTools, type MadeFilm, makeFilms, plateCount } from './makeFilms.ts'
import type { Proof } from './proof.ts'
import type { Spool } from './screenPlates.ts'

/** Artwork that was looked at and not yet decoded. */
export type FilmArtwork = Readonly<{
  proportion: number
  widthMm: number | null
  samples: (
    film: Readonly<{
      widthPx: number
      heightPx: number
      keepsCmyk: boolean
      inks: readonly string[]
    }>,
  ) => Promise<Artwork>
}>

/** A file of films: of one plate, first printed first, or of all of them. */
export type FilmFile =
  | Readonly<{ kind: 'pdf' | 'tiff'; plate: number }>
  | Readonly<{ kind: 'nested' | 'proof' }>

export type FilmFileTools = Omit<FilmTools, 'spools' | 'onShare'> &
  Readonly<{
    openSpool: () => Promise<Spool>
    deflater: () => Deflater
    png: (proof: Proof) => Promise<Uint8Array>
    /** Writes a file whole or not at all. */
    put: (file: FilmFile, write: (sink: ByteSink) => Promise<void>) => Promise<void>
    onShare: (share: number, words: string) => void
  }>

export type FilmsWritten = Readonly<{
  /** Of a film, marks and all. */
  widthMm: number
  heightMm: number
  /** Of the artwork on it. */
  size: FilmSize
  films: readonly Readonly<{ ink: string; coverageShare: number }>[]
  ink: InkAtOnePlace
}>

/** Parting and screening, of all the time that making takes; the rest is writing. */
const SCREENED_SHARE = 0.7
const PARTING = 'parting the artwork into inks'

/**
 * Makes the films of a plan and hands over their files as they are written, the proof last: of each
 * plate what the plan's formats ask for, and all films side by side in one where it nests them.
 *
 * @throws what `filmSize`, `makeFilms`, the artwork and the tools throw
 */
export async function writeFilmFiles(
  artwork: FilmArtwork,
  plan: FilmPlan,
  tools: FilmFileTools,
): Promise<FilmsWritten> {
  const { onShare, put } = tools
  onShare(0.01, PARTING)
  const size = filmSize(plan, artwork)
  const samples = await artwork.samples({
    ...size,
    keepsCmyk: plan.mode === 'process',
    inks: plan.inks.map(({ name }) => name),
  })
  const spools: Spool[] = []
  try {
    for (let plate = 0; plate < plateCount(plan); plate++) spools.push(await tools.openSpool())
    const made = await makeFilms(samples, {
      plan,
      size,
      tools: {
        ...tools,
        spools,
        onShare: (share) => onShare(0.01 + (SCREENED_SHARE - 0.01) * share, PARTING),
      },
    })
    const { films, nested } = made
    const formats = nested === null ? plan.formats : plan.formats.filter((kind) => kind !== 'pdf')
    for (const [plate, film] of films.entries()) {
      const share = SCREENED_SHARE + (1 - SCREENED_SHARE) * (plate / films.length)
      onShare(share, `writing ${film.ink}`)
      await writeFilm(film, { plate, formats, tools })
    }
    if (nested !== null && plan.formats.includes('pdf')) {
      await put({ kind: 'nested' }, pdfOf(nested, 'films', tools))
    }
    const png = await tools.png(made.proof)
    await put({ kind: 'proof' }, (sink) => sink.write(png))
    return {
      widthMm: made.widthMm,
      heightMm: made.heightMm,
      size,
      films: films.map(({ ink, coverageShare }) => ({ ink, coverageShare })),
      ink: made.ink,
    }
  } finally {
    await tools.elsewhere?.close()
    for (const spool of spools) await spool.close()
  }
}

async function writeFilm(
  film: MadeFilm,
  {
    plate,
    formats,
    tools,
  }: Readonly<{ plate: number; formats: FilmPlan['formats']; tools: FilmFileTools }>,
): Promise<void> {
  for (const kind of formats) {
    const write =
      kind === 'pdf'
        ? pdfOf(film.pages, film.name, tools)
        : (sink: ByteSink) => writeBilevelTiff(film.bits(), { sink })
    await tools.put({ kind, plate }, write)
  }
}

function pdfOf(
  pages: () => readonly FilmPage[],
  title: string,
  { deflater }: FilmFileTools,
): (sink: ByteSink) => Promise<void> {
  return (sink) => writeFilmPdf(pages(), { sink, deflater: deflater(), title })
}
