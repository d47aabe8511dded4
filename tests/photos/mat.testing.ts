import { mkdtemp, readFile, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { type FilmScene, photoOfFilm } from '../../fixtures/photos/photoOfFilm.ts'
import type { Plane } from '../../fixtures/photos/plane.ts'
import { clouds } from '../../fixtures/photos/random.ts'
import { byPdfium } from '../../src/formats/pdfReaders.testing.ts'
import { run } from '../commands/run.ts'
import { type Errors, errorsOf, type MapRead } from './reading.testing.ts'

const SHEET_MM = { widthMm: 210, heightMm: 297 }

/**
 * What a knife takes out of the A4 mat, in mm from the sheet's top left, as its printed lines show
 * it on the rendered page; a hand cuts 0.2 mm inside of them.
 */
const WINDOW_MM = { xMm: 22, yMm: 27, widthMm: 166, heightMm: 199 }
const SLOT_MM = { xMm: 25, yMm: 236, widthMm: 160, heightMm: 17 }
const CUT_MM = 0.2

/** White copy paper before a light table, and toner on it (judged). */
const PAPER_LIGHT = 0.17
const TONER_LIGHT = 0.006

/**
 * The mat as light that goes through it: the PDF of the `mat` command, drawn by pdfium, its window
 * and slot cut out, lying so that the film's top left is at (0, 0).
 */
async function printedMat(film: Readonly<{ xMm: number; yMm: number }>): Promise<Plane> {
  const folder = await mkdtemp(join(tmpdir(), 'yellowroom-mat-'))
  try {
    const path = join(folder, 'mat.pdf')
    const { exit, err } = await run(['mat', '--size', 'a4', '--out', path])
    if (exit !== 0) throw new Error(err)
    const pixelMm = 0.2
    const [widthPx, heightPx] = [SHEET_MM.widthMm / pixelMm, SHEET_MM.heightMm / pixelMm]
    const { grey } = await byPdfium(await readFile(path), { widthPx, heightPx })
    const fibres = clouds(12, 3)
    const values = new Float32Array(widthPx * heightPx)
    for (let at = 0; at < values.length; at += 1) {
      const [x, y] = [((at % widthPx) + 0.5) * pixelMm, (Math.floor(at / widthPx) + 0.5) * pixelMm]
      const white = grey[at] / 255
      const paper = PAPER_LIGHT * (1 + 0.04 * fibres(x, y))
      values[at] =
        within(WINDOW_MM, x, y) || within(SLOT_MM, x, y)
          ? 1
          : paper * white + TONER_LIGHT * (1 - white)
    }
    return { xMm: -film.xMm, yMm: -film.yMm, pixelMm, widthPx, heightPx, values, outside: 1 }
  } finally {
    await rm(folder, { recursive: true, force: true })
  }
}

function within({ xMm, yMm, widthMm, heightMm }: typeof WINDOW_MM, x: number, y: number): boolean {
  const [left, top] = [xMm + CUT_MM, yMm + CUT_MM]
  return x > left && y > top && x < xMm + widthMm - CUT_MM && y < yMm + heightMm - CUT_MM
}

/** Where the film's top left lies under the mat, and the wedge in its slot, on the sheet. */
const FILM_AT = { xMm: 15, yMm: 20 }
const WEDGE_AT = { xMm: 29, yMm: 238 }

/**
 * A photo of a film under the mat, the wedge in its slot. heldTo measures a reading where the
 * reading itself says its map lies: the corners it reports, seen by the true camera.
 */
export async function photoOnMat(scene: Pick<FilmScene, 'film' | 'seed' | 'camera'>) {
  const mat = await printedMat(FILM_AT)
  const wedge = {
    first: 0.05,
    increment: 0.15,
    count: 21,
    xMm: WEDGE_AT.xMm - FILM_AT.xMm,
    yMm: WEDGE_AT.yMm - FILM_AT.yMm,
    stepMm: 7,
    heightMm: 13,
  }
  const { jpeg, truth } = await photoOfFilm({ ...scene, mat, wedge })
  const heldTo = (read: MapRead): Errors & Readonly<{ sizeError: number }> => {
    const { corners, widthMm, heightMm } = read.answer
    const [topLeft, topRight, , bottomLeft] = corners.map((corner) => truth.tablePoint(corner))
    const wide = Math.hypot(topRight.x - topLeft.x, topRight.y - topLeft.y)
    const high = Math.hypot(bottomLeft.x - topLeft.x, bottomLeft.y - topLeft.y)
    const densityAt = (x: number, y: number): number =>
      truth.densityAt(topLeft.x + x, topLeft.y + y)
    const sizeError = Math.max(Math.abs(widthMm / wide - 1), Math.abs(heightMm / high - 1))
    return { ...errorsOf(read, { ...truth, widthMm, heightMm, densityAt }), sizeError }
  }
  return { jpeg, truth: { ...truth, heldTo } }
}
