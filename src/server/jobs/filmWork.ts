import { Failure, isFailure } from '../../core/failure.ts'
import { deflater } from '../../decode/deflater.ts'
import { writeWhole } from '../../decode/files.ts'
import { named } from '../../decode/named.ts'
import { type OpenedFilm, withFilm } from '../../decode/openFilm.ts'
import { DEMO_FILMS } from '../../demo/films.ts'
import type { ByteSink } from '../../formats/bytes.ts'
import { writeFloatTiff } from '../../formats/floatTiff.ts'
import { tileWriter } from '../../formats/tileStore.ts'
import { type FilmPicture, filmPicture, finestWanted } from '../../workflow/filmForecast.ts'
import {
  type FilmFindings,
  type FineTiles,
  filmFindings,
} from '../../workflow/filmForecastFindings.ts'
import { MARKS_ABOVE } from '../../workflow/watchStencil.ts'
import type { Hands } from './hands.ts'
import { openTileFile } from './tileFile.ts'
import type { FilmSource, FilmWork, FilmWorkPicture, FilmWorkResult } from './work.ts'

type Film = OpenedFilm['film']
type Sink = Pick<ByteSink, 'write'>
type OnProgress = (share: number, words: string) => void

export type FilmWorkOptions = Readonly<{
  /** Who works on parts of the film; null: this thread alone. */
  hands: Hands | null
  onProgress: OnProgress
  /** The tiles are whole; what follows adds to them nothing. */
  onPicture: (result: FilmWorkPicture) => void
}>

/** What share of the time is over when the picture stands, and when the marks are found once. */
const PICTURE_SHARE = 0.3
const FINDINGS_SHARE = 0.95

const PACKER = deflater({ runs: true })

/**
 * Reads a film, forecasts it under a setup and writes its tiles.
 *
 * @throws Failure in one sentence that speaks of the film by its owner's name for it
 */
export async function doFilmWork(
  work: FilmWork,
  options: FilmWorkOptions,
): Promise<FilmWorkResult> {
  const { source } = work
  const { onProgress } = options
  if (source.kind === 'demo') {
    onProgress(0.01, 'drawing the film')
    const film = DEMO_FILMS[source.film].draw()
    // every band is a sign of life: a busy computer may take minutes for a film
    async function* bands(): ReturnType<Film['bands']> {
      for await (const band of film.bands()) {
        onProgress(0.01, 'drawing the film')
        yield band
      }
    }
    await writeDensityMap({ ...film, bands }, source.mapPath)
    return forecastOf(film, { work, warnings: [], options })
  }
  const stated = {
    resolutionDpi: source.resolutionDpi ?? undefined,
    solidDensity: source.solidDensity ?? undefined,
    as: source.as ?? undefined,
    ahead: true,
  }
  onProgress(0.01, 'reading the film')
  try {
    return await withFilm(source.path, stated, ({ film, warnings }) =>
      forecastOf(film, {
        work,
        warnings: warnings.map((words) => spoken(words, source)),
        options,
      }),
    )
  } catch (cause) {
    if (!isFailure(cause)) throw cause
    const { kind, message, field } = cause
    throw new Failure(kind, spoken(message, source), {
      cause,
      ...(field === undefined ? {} : { field }),
    })
  }
}

/** The sentence without the place where the shop keeps the file, and without a command's option. */
function spoken(words: string, { path, name }: Extract<FilmSource, { kind: 'file' }>): string {
  return words
    .replaceAll(named(path), named(name))
    .replaceAll('with --resolution-dpi', 'in pixels per inch')
}

async function forecastOf(
  film: Film,
  {
    work: { setup, tilesPath, shownPath },
    warnings,
    options: { hands, onProgress, onPicture },
  }: Readonly<{ work: FilmWork; warnings: readonly string[]; options: FilmWorkOptions }>,
): Promise<FilmWorkResult> {
  const finest = finestWanted(film)
  const shown = await written(finest === 0 ? tilesPath : shownPath, (sink) =>
    filmPicture(film, setup, {
      sink,
      deflater: PACKER,
      finest,
      ...(hands === null ? {} : { hands: hands.picture }),
      onRows: (rows) => onProgress((PICTURE_SHARE * rows) / film.heightPx, 'forecasting'),
    }),
  )
  onPicture({ warnings, picture: shown })
  const finds = (
    marksAbove: number,
    [from, to]: readonly [number, number],
    fine?: FineTiles,
  ): Promise<FilmFindings> =>
    filmFindings(film, setup, {
      marksAbove,
      ...(hands === null ? {} : { hands: hands.marks }),
      ...(fine === undefined ? {} : { fine }),
      onRows: (rows) =>
        onProgress(from + (to - from) * (rows / film.heightPx), 'looking for weak marks'),
    })
  const first = (fine?: FineTiles): Promise<FilmFindings> =>
    finds(MARKS_ABOVE, [PICTURE_SHARE, FINDINGS_SHARE], fine)
  const { picture, findings } =
    finest === 0
      ? { picture: shown, findings: await first() }
      : await written(tilesPath, (sink) => withFineTiles(shown, { shownPath, sink, make: first }))
  const faint = findings.underdrawing
  const withoutFaint = faint === null ? null : await finds(faint.paleBelow, [FINDINGS_SHARE, 1])
  return { warnings, picture, findings, withoutFaint }
}

/** The tiles of a picture and those finer ones that are made by the way, in one file. */
async function withFineTiles(
  shown: FilmPicture,
  {
    shownPath,
    sink,
    make,
  }: Readonly<{
    shownPath: string
    sink: Sink
    make: (fine: FineTiles) => Promise<FilmFindings>
  }>,
): Promise<Readonly<{ picture: FilmPicture; findings: FilmFindings }>> {
  const { widthPx, heightPx, pyramid } = shown
  const { finest, tileSide } = pyramid
  const writer = await tileWriter({ widthPx, heightPx, tileSide }, { sink, deflater: PACKER })
  const { store, close } = await openTileFile(shownPath)
  try {
    for (const place of store.places()) {
      await writer.putDeflated(place, (await store.tile(place)) ?? new Uint8Array())
    }
  } finally {
    await close()
  }
  const findings = await make({
    finest,
    deflater: PACKER,
    put: ({ place, deflated }) => writer.putDeflated(place, deflated),
  })
  const sizeBytes = await writer.finish()
  return { picture: { ...shown, pyramid: { ...pyramid, finest: 0 }, sizeBytes }, findings }
}

/** What `write` answers once its file is whole. */
async function written<Result>(
  path: string,
  write: (sink: Sink) => Promise<Result>,
): Promise<Result> {
  const answers: Result[] = []
  await writeWhole(path, { force: true }, async (sink) => {
    answers.push(await write(sink))
  })
  return answers[0] as Result
}

/** A drawn film as a density map, so that it need not be drawn again; a band in memory at a time. */
async function writeDensityMap(film: Film, path: string): Promise<void> {
  const { widthPx, heightPx, pixelUm, transmissionOf } = film
  if (transmissionOf === null) throw new RangeError('film: expected coded samples, got densities')
  const densities = transmissionOf.map((share) => -Math.log10(share))
  async function* bands() {
    for await (const { rows, samples } of film.bands()) {
      const map = new Float32Array(samples.length)
      for (let at = 0; at < map.length; at += 1) map[at] = densities[samples[at] ?? 0] ?? 0
      yield { rows, samples: map }
    }
  }
  await writeWhole(path, { force: true }, (sink) =>
    writeFloatTiff({ widthPx, heightPx, pixelUm, bands: bands() }, { sink, deflater: deflater() }),
  )
}
