import { join } from 'node:path'
import { Failure, isFailure } from '../../core/failure.ts'
import { type OpenedArtwork, openArtwork } from '../../decode/artwork.ts'
import { deflater } from '../../decode/deflater.ts'
import { writeWhole } from '../../decode/files.ts'
import { openLetters } from '../../decode/glyphs.ts'
import { named } from '../../decode/named.ts'
import { pageRaster } from '../../decode/pageRaster.ts'
import { pngOf } from '../../decode/picture.ts'
import { type FileSpool, openSpool } from '../../decode/spool.ts'
import { writeBilevelTiff } from '../../formats/bilevelTiff.ts'
import type { ByteSink } from '../../formats/bytes.ts'
import { writeFilmPdf } from '../../formats/filmPdf.ts'
import { filmSize } from '../../workflow/makeFilms/filmSize.ts'
import { type MadeFilms, makeFilms, plateCount } from '../../workflow/makeFilms/makeFilms.ts'
import { planFromJson } from '../../workflow/makeFilms/readPlan.ts'
import { type KeptSamples, writeSamples } from '../../workflow/makeFilms/writeSamples.ts'
import type { WorkSays } from '../jobs/servedWork.ts'
import type { ArtworkResult, ArtworkWork } from './artworkWork.ts'

type OnProgress = WorkSays<never>['onProgress']

/** On a print of 400 mm a tenth of a millimetre is seen. */
const LOOKED_AT_PX = 4000
/** Parting and screening, of all the time that making takes; the rest is writing. */
const SCREENED_SHARE = 0.7

/**
 * Does one work on artwork.
 *
 * @throws Failure in one sentence that speaks of the artwork by its owner's name for it
 */
export async function doArtworkWork(
  work: ArtworkWork,
  { onProgress }: WorkSays<never>,
): Promise<ArtworkResult> {
  const { path, name } = work.artwork
  const spoken = (words: string): string => words.replaceAll(named(path), named(name))
  try {
    const opened = await openArtwork(path)
    try {
      if (work.kind === 'make') return await madeOf(opened, work, onProgress)
      const picture = await lookedAt(opened, work, onProgress)
      const { proportion, widthMm, warnings } = opened
      return {
        kind: 'look',
        seen: { proportion, widthMm, warnings: warnings.map(spoken), picture },
      }
    } finally {
      await opened.close()
    }
  } catch (cause) {
    if (!isFailure(cause)) throw cause
    const { kind, message, field } = cause
    throw new Failure(kind, spoken(message), { cause, ...(field === undefined ? {} : { field }) })
  }
}

async function lookedAt(
  opened: OpenedArtwork,
  { samplesPath }: Extract<ArtworkWork, { kind: 'look' }>,
  onProgress: OnProgress,
): Promise<KeptSamples> {
  onProgress(0.05, 'looking at the artwork')
  const { proportion } = opened
  const artwork = await opened.samples({
    widthPx: Math.max(1, Math.round(LOOKED_AT_PX * Math.min(1, proportion))),
    heightPx: Math.max(1, Math.round(LOOKED_AT_PX / Math.max(1, proportion))),
    keepsCmyk: false,
    inks: [],
  })
  return written(samplesPath, (sink) =>
    writeSamples(artwork, {
      sink,
      deflater: deflater({ runs: true }),
      onShare: (share) => onProgress(0.05 + 0.95 * share, 'looking at the artwork'),
    }),
  )
}

async function madeOf(
  opened: OpenedArtwork,
  { plan: planFile, folder }: Extract<ArtworkWork, { kind: 'make' }>,
  onProgress: OnProgress,
): Promise<ArtworkResult> {
  onProgress(0.01, 'parting the artwork into inks')
  const plan = planFromJson(JSON.stringify(planFile))
  const size = filmSize(plan, opened)
  const artwork = await opened.samples({
    ...size,
    keepsCmyk: plan.mode === 'process',
    inks: plan.inks.map(({ name }) => name),
  })
  const spools: FileSpool[] = []
  try {
    for (let plate = 0; plate < plateCount(plan); plate++) spools.push(await openSpool())
    const made = await makeFilms(artwork, {
      plan,
      size,
      tools: {
        spools,
        letters: await openLetters(),
        raster: pageRaster,
        onShare: (share) =>
          onProgress(0.01 + (SCREENED_SHARE - 0.01) * share, 'parting the artwork into inks'),
      },
    })
    const films = await writtenFilms(made, folder, onProgress)
    const proofPath = join(folder, 'proof')
    const png = await pngOf(made.proof)
    await writeWhole(proofPath, { force: true }, (sink) => sink.write(png))
    const { widthMm, heightMm } = made
    return { kind: 'make', made: { plan: planFile, widthMm, heightMm }, films, proofPath }
  } finally {
    for (const spool of spools) await spool.close()
  }
}

async function writtenFilms(
  { films }: MadeFilms,
  folder: string,
  onProgress: OnProgress,
): Promise<Extract<ArtworkResult, { kind: 'make' }>['films']> {
  const written = []
  for (const [at, film] of films.entries()) {
    const { ink, coverageShare } = film
    onProgress(SCREENED_SHARE + (1 - SCREENED_SHARE) * (at / films.length), `writing ${ink}`)
    const [pdfPath, tiffPath] = [join(folder, `${at}.pdf`), join(folder, `${at}.tif`)]
    await writeWhole(pdfPath, { force: true }, (sink) =>
      writeFilmPdf(film.pages(), { sink, deflater: deflater(), title: ink }),
    )
    await writeWhole(tiffPath, { force: true }, (sink) => writeBilevelTiff(film.bits(), { sink }))
    written.push({ ink, coverageShare, pdfPath, tiffPath })
  }
  return written
}

/** What `write` answers once its file is whole. */
async function written<Result>(
  path: string,
  write: (sink: ByteSink) => Promise<Result>,
): Promise<Result> {
  const answers: Result[] = []
  await writeWhole(path, { force: true }, async (sink) => {
    answers.push(await write(sink))
  })
  return answers[0] as Result
}
