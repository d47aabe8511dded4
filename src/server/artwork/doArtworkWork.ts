import { join } from 'node:path'
import type { Lab, Srgb } from '../../core/colour/space.ts'
import { labFromSrgb } from '../../core/colour/srgb.ts'
import { Failure, isFailure } from '../../core/failure.ts'
import { type OpenedArtwork, openArtwork } from '../../decode/artwork.ts'
import { deflater } from '../../decode/deflater.ts'
import { writeWhole } from '../../decode/files.ts'
import { openLetters } from '../../decode/glyphs.ts'
import { named } from '../../decode/named.ts'
import { pageRaster } from '../../decode/pageRaster.ts'
import { pngOf } from '../../decode/picture.ts'
import { openSpool } from '../../decode/spool.ts'
import type { ByteSink } from '../../formats/bytes.ts'
import { writeFilmFiles } from '../../workflow/makeFilms/filmFiles.ts'
import { type Passing, passingInks } from '../../workflow/makeFilms/passingInks.ts'
import { planFromJson } from '../../workflow/makeFilms/readPlan.ts'
import { usualPlan } from '../../workflow/makeFilms/usualPlan.ts'
import { type KeptSamples, writeSamples } from '../../workflow/makeFilms/writeSamples.ts'
import type { WorkSays } from '../jobs/servedWork.ts'
import type { ArtworkResult, ArtworkWork } from './artworkWork.ts'
import { screenThreads } from './screenThreads.ts'

type OnProgress = WorkSays<never>['onProgress']

/** On a print of 400 mm a tenth of a millimetre is seen. */
const LOOKED_AT_PX = 4000

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
      const { proportion, widthMm, warnings, statesCmyk } = opened
      const ownInks = opened.ownInks.map(({ name: ink, srgb }) => ({
        name: ink,
        lab: tenths(srgb),
      }))
      const stated = { ownInks, statesCmyk, isPicture: opened.kind === 'picture' }
      const passing =
        work.passing ?? passingInks(usualPlan({ ...opened, ...stated }, NO_CHOICES), stated)
      const picture = await lookedAt(opened, { ...work, passing }, onProgress)
      return {
        kind: 'look',
        seen: {
          proportion,
          widthMm,
          warnings: warnings.map(spoken),
          picture,
          ...stated,
          passing,
        },
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

/** Of a shop that has said nothing. */
const NO_CHOICES = { inks: [], fabric: null }

function tenths(srgb: Srgb): Lab {
  const [l, a, b] = labFromSrgb(srgb).map((value) => Math.round(10 * value) / 10)
  return [Math.min(100, l ?? 0), a ?? 0, b ?? 0]
}

async function lookedAt(
  opened: OpenedArtwork,
  { samplesPath, passing }: Readonly<{ samplesPath: string; passing: Passing }>,
  onProgress: OnProgress,
): Promise<KeptSamples> {
  onProgress(0.05, 'looking at the artwork')
  const { proportion } = opened
  const artwork = await opened.samples({
    widthPx: Math.max(1, Math.round(LOOKED_AT_PX * Math.min(1, proportion))),
    heightPx: Math.max(1, Math.round(LOOKED_AT_PX / Math.max(1, proportion))),
    ...passing,
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
  { plan: planFile, folder, artwork, layers }: Extract<ArtworkWork, { kind: 'make' }>,
  onProgress: OnProgress,
): Promise<ArtworkResult> {
  const plan = planFromJson(JSON.stringify(planFile))
  const isNested = plan.sheet?.nest === true
  const pathOf = (plate: number, ending: string): string => join(folder, `${plate}.${ending}`)
  const proofPath = join(folder, 'proof')
  const nestedPath = join(folder, 'nested.pdf')
  const { widthMm, heightMm, films } = await writeFilmFiles(
    opened,
    // every plate has both files, whatever the plan would write into a folder
    { ...plan, formats: ['pdf', 'tiff'] },
    {
      openSpool,
      letters: await openLetters(),
      raster: pageRaster,
      deflater: () => deflater(),
      png: pngOf,
      put: (file, write) => {
        const path =
          'plate' in file
            ? pathOf(file.plate, file.kind === 'pdf' ? 'pdf' : 'tif')
            : file.kind === 'nested'
              ? nestedPath
              : proofPath
        return writeWhole(path, { force: true }, write)
      },
      elsewhere: screenThreads(artwork.path),
      layers,
      onShare: onProgress,
    },
  )
  const kept = films.map((film, plate) => {
    // films that lie side by side share one PDF
    const pdfPath = isNested ? nestedPath : pathOf(plate, 'pdf')
    return { ...film, pdfPath, tiffPath: pathOf(plate, 'tif') }
  })
  return { kind: 'make', made: { plan: planFile, widthMm, heightMm }, films: kept, proofPath }
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
