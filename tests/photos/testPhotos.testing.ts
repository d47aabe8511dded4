import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Point } from '../../fixtures/photos/camera.ts'
import type { PrintedStrip } from '../../fixtures/photos/photoOfStrip.ts'
import { seeded } from '../../fixtures/photos/random.ts'
import { openLetters } from '../../src/decode/glyphs.ts'
import { pageFilm } from '../../src/decode/pageFilm.ts'
import { openPhoto, type Photo } from '../../src/decode/photo.ts'
import { byPdfium } from '../../src/formats/pdfReaders.testing.ts'
import type { Film } from '../../src/raster/film.ts'
import { testFilmPage } from '../../src/workflow/papers/testFilm.ts'
import { type FilmLayout, filmLayout } from '../../src/workflow/papers/testFilmLayout.ts'
import { json } from '../commands/run.ts'

/** A JPEG as the server opens it. */
export function opened(jpeg: Buffer): Promise<Photo> {
  return inFile(jpeg, openPhoto)
}

/** What is made of a JPEG that lies in a file. */
export async function inFile<Result>(
  jpeg: Buffer,
  use: (path: string) => Promise<Result>,
): Promise<Result> {
  const folder = await mkdtemp(join(tmpdir(), 'yellowroom-test-photo-'))
  try {
    const path = join(folder, 'photo.jpg')
    await writeFile(path, jpeg)
    return await use(path)
  } finally {
    await rm(folder, { recursive: true, force: true })
  }
}

/** Corners as a finger sets them: off by up to so many pixels either way. */
export function byFinger(corners: readonly Point[], seed: number, offPx: number): readonly Point[] {
  const random = seeded(seed + 900)
  return corners.map(({ x, y }) => ({
    x: x + random.between(-offPx, offPx),
    y: y + random.between(-offPx, offPx),
  }))
}

/** The film of a strip as it is printed: the PDF of the command, drawn by pdfium. Largest dose first. */
export async function printedStrip(
  asked: Readonly<{ lowLu: number; highLu: number; bands: number }>,
): Promise<Readonly<{ printed: PrintedStrip; dosesLu: readonly number[] }>> {
  const folder = await mkdtemp(join(tmpdir(), 'yellowroom-strip-'))
  try {
    const path = join(folder, 'strip.pdf')
    const { lowLu, highLu, bands } = asked
    const words = ['strip', '--low', lowLu, '--high', highLu, '--bands', bands, '--film', path]
    const answer = (await json(words.map(String))) as Readonly<{
      film: Readonly<{
        bands: readonly Readonly<{ doseLu: number }>[]
        coverMm: readonly number[]
      }>
    }>
    const pixelMm = 25.4 / 200
    const [widthPx, heightPx] = [Math.round(210 / pixelMm), Math.round(297 / pixelMm)]
    const { grey } = await byPdfium(await readFile(path), {
      widthPx,
      heightPx,
    })
    const light = Float32Array.from(grey, (value) => value / 255)
    const edgesMm = answer.film.coverMm
    const dosesLu = answer.film.bands.map(({ doseLu }) => doseLu).toSorted((a, b) => b - a)
    return { printed: { light, widthPx, heightPx, pixelMm, edgesMm }, dosesLu }
  } finally {
    await rm(folder, { recursive: true, force: true })
  }
}

/** The same film as whoever reads the photo knows it. */
export async function knownStrip(
  dosesLu: readonly number[],
): Promise<Readonly<{ film: Film; layout: FilmLayout }>> {
  const letters = await openLetters()
  const page = testFilmPage({ bandCounts: dosesLu, countsIn: 'light units' }, { letters })
  const film = await pageFilm(page, { resolutionDpi: 300 })
  return { film, layout: filmLayout({ bands: dosesLu.length }) }
}
