import { join } from 'node:path'
import type { FilmPlan } from '../core/separation/plan.ts'
import type { ByteSink } from '../formats/bytes.ts'
import type { FilmFile } from '../workflow/makeFilms/filmFiles.ts'
import type { Stream } from './command.ts'
import { progressOn } from './progress.ts'

/** What stands in films.json; files by their names in its folder. */
export type FilmsRecord = Readonly<{
  kind: 'films'
  mode: FilmPlan['mode']
  /** Of a film, marks and all. */
  widthMm: number
  heightMm: number
  /** Of the artwork on it. */
  artworkWidthMm: number
  artworkHeightMm: number
  resolutionDpi: number
  films: readonly Readonly<{
    ink: string
    pdf: string | null
    tiff: string | null
    coverageShare: number
  }>[]
  /** In solids: the most at one place of the films, the limit, and on how much of the sheet there is more. */
  ink: Readonly<{ most: number; limit: number; aboveShare: number }>
  proof: string
}>

export type FilmsTask = Readonly<{
  artwork: string
  planFile: string
  folder: string
  force: boolean
  stderr: Stream
}>

/**
 * Makes the films of a plan and writes them, films.json last.
 *
 * @throws Failure as `openArtwork`, `writeFilmFiles` and `writeWhole`; nothing of it is left then
 */
export async function writeFilms(plan: FilmPlan, task: FilmsTask): Promise<FilmsRecord> {
  const { openArtwork } = await import('../decode/artwork.ts')
  const { writeFilmFiles } = await import('../workflow/makeFilms/filmFiles.ts')
  const { openLetters } = await import('../decode/glyphs.ts')
  const { openOutFolder } = await import('../decode/outFolder.ts')
  const { openSpool } = await import('../decode/spool.ts')
  const { pageRaster } = await import('../decode/pageRaster.ts')
  const { deflater } = await import('../decode/deflater.ts')
  const { pngOf } = await import('../decode/picture.ts')
  const { screenThreads } = await import('../server/artwork/screenThreads.ts')
  const { inkWords } = await import('../workflow/makeFilms/inkAtOnePlace.ts')
  const { toneWords } = await import('../workflow/makeFilms/toneWords.ts')
  const opened = await openArtwork(task.artwork)
  try {
    for (const warning of [...warningsOf(plan, opened.warnings), ...toneWords(plan)]) {
      task.stderr.write(`Warning: ${warning}\n`)
    }
    const names = plateNames(plan)
    const folder = await openOutFolder(task.folder)
    try {
      await refuseThere(names, plan, task)
      const put = putInto(task, folder.wrote)
      const progress = progressOn(task.stderr, 'films')
      const { size, films, ink, ...made } = await writeFilmFiles(opened, plan, {
        openSpool,
        letters: await openLetters(),
        raster: pageRaster,
        deflater: () => deflater(),
        png: pngOf,
        put: (file, write) => put(fileName(file, names), write),
        elsewhere: screenThreads(task.artwork),
        onShare: progress.at,
      })
      progress.done()
      for (const words of inkWords(ink, plan)) task.stderr.write(`Warning: ${words}\n`)
      const { formats } = plan
      const record: FilmsRecord = {
        kind: 'films',
        mode: plan.mode,
        ...made,
        artworkWidthMm: size.widthMm,
        artworkHeightMm: size.heightMm,
        resolutionDpi: plan.resolutionDpi,
        films: films.map(({ ink, coverageShare }, at) => ({
          ink,
          pdf: formats.includes('pdf') ? pdfName(plan, names[at]) : null,
          tiff: formats.includes('tiff') ? `${names[at]}.tif` : null,
          coverageShare,
        })),
        ink,
        proof: PROOF,
      }
      const text = new TextEncoder().encode(`${JSON.stringify(record, null, 2)}\n`)
      await put(LIST, (sink) => sink.write(text))
      return record
    } catch (error) {
      await folder.undo()
      throw error
    }
  } finally {
    await opened.close()
  }
}

const PROOF = 'proof.png'
const LIST = 'films.json'
const NESTED = 'films.pdf'

type Put = (name: string, write: (sink: ByteSink) => Promise<void>) => Promise<void>

function putInto(
  { folder, force, artwork, planFile }: FilmsTask,
  wrote: (path: string) => void,
): Put {
  return async (name, write) => {
    const { writeWhole } = await import('../decode/files.ts')
    const path = join(folder, name)
    await writeWhole(path, { force, inputs: [artwork, planFile] }, write)
    wrote(path)
  }
}

function fileName(file: FilmFile, names: readonly string[]): string {
  switch (file.kind) {
    case 'nested':
      return NESTED
    case 'proof':
      return PROOF
    case 'pdf':
      return `${names[file.plate]}.pdf`
    case 'tiff':
      return `${names[file.plate]}.tif`
  }
}

/** The PDF of a film: its own, or the one that holds them all. */
function pdfName({ sheet }: FilmPlan, name: string | undefined): string {
  return sheet?.nest === true ? NESTED : `${name}.pdf`
}

async function refuseThere(
  names: readonly string[],
  plan: FilmPlan,
  { folder, force, artwork, planFile }: FilmsTask,
): Promise<void> {
  const { refuseExisting } = await import('../decode/files.ts')
  const films = names.flatMap((name) =>
    plan.formats.map((format) => (format === 'pdf' ? pdfName(plan, name) : `${name}.tif`)),
  )
  for (const name of [...new Set(films), PROOF, LIST]) {
    await refuseExisting(join(folder, name), { force, inputs: [artwork, planFile] })
  }
}

/** `1-red`: the order of printing, and what of the name every disk takes. */
function plateNames({ inks, underbase }: FilmPlan): readonly string[] {
  const all = [...(underbase === null ? [] : [underbase.name]), ...inks.map(({ name }) => name)]
  return all.map((name, at) => {
    const plain = name
      .normalize('NFKD')
      .toLowerCase()
      .replace(/\p{M}/gu, '')
      .replace(/[^\p{L}\p{N}]+/gu, '-')
      .replace(/^-+|-+$/g, '')
    return [String(at + 1), plain.slice(0, 40)].filter((part) => part !== '').join('-')
  })
}

function warningsOf(plan: FilmPlan, ofArtwork: readonly string[]): readonly string[] {
  const { halftone, inks, marks, mode, resolutionDpi } = plan
  const hasTones = mode !== 'line' && inks.length > 1
  const sharesAngle =
    halftone?.kind === 'dot' && hasTones && inks.every(({ angleDeg }) => angleDeg === null)
  const fineDots =
    halftone?.kind === 'stochastic' && (halftone.dotUm ?? 25_400 / resolutionDpi) < 60
  const warnings: readonly (readonly [boolean, string])[] = [
    [
      sharesAngle,
      'All inks share one angle, and dots that lie on each other shift in colour; give each ink an angleDeg, such as 15, 75, 0 and 45.',
    ],
    [
      fineDots,
      'The dots are finer than a fabric holds; give halftone.dotUm, about the finest line of the fabric.',
    ],
    [halftone === null && marks.stepStrip, 'Without a halftone there is no step strip.'],
  ]
  return [...ofArtwork, ...warnings.filter(([holds]) => holds).map(([, words]) => words)]
}
