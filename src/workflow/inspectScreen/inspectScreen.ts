import { Failure } from '../../core/failure.ts'
import { type Finding, inOrderOfWork } from '../../core/inspection/findings.ts'
import { type Verdict, verdictOf } from '../../core/inspection/verdict.ts'
import type { Range } from '../../core/units/range.ts'
import type { Film } from '../../raster/film.ts'
import { type Grid, gridOf } from '../../raster/inspect/grid.ts'
import { markShares, type Shares } from '../../raster/inspect/markShares.ts'
import type { Plane } from '../../raster/inspect/plane.ts'
import { isMirrored, magnification } from '../../raster/inspect/pose.ts'
import { type LitAlignment, type Registration, register } from '../../raster/inspect/register.ts'
import type { PhotoLight } from '../../raster/photo/photoLight.ts'
import { reduced } from '../../raster/photo/reduced.ts'
import { compared } from './compareScreen.ts'
import { type Corner, cornerGuesses } from './cornerGuesses.ts'

/** The answer of `inspect`. */
export type Inspection = Readonly<{
  kind: 'inspection'
  verdict: Verdict
  mirrored: boolean
  resolutionUm: number
  findings: readonly Finding[]
  warnings: readonly string[]
}>

export type InspectOptions = Readonly<{
  /** The film's corners in photo pixels, clockwise as seen in the photo. */
  corners?: readonly Corner[] | undefined
  /** Nothing smaller is told, even if the photo could. */
  limitUm?: number | undefined
  /** Is handed screen and film as they were laid over one another: for a picture. */
  onLaid?: ((laid: Laid) => void) | undefined
}>

/** Cell by cell: what comes through the screen, 0 … 1, and what the film asks for. */
export type Laid = Readonly<{ screen: Plane; film: Plane; cellUm: number }>

export const LIMIT: Range = { name: 'limit-um', low: 1, high: 10_000, unit: 'um' }

/** Light through a mark is below this: it is to open. */
const MARK_BELOW = 0.5

/** Longer side of the film while it is looked for. */
const SEARCH_PX = 1024

/**
 * A photo of the backlit screen against its film.
 *
 * @param photo linear light, upright
 * @throws Failure 'wrong input' where the photo is not of such a screen
 */
export async function inspectScreen(
  photo: PhotoLight,
  film: Film,
  { corners, limitUm = 0, onLaid }: InspectOptions = {},
): Promise<Inspection> {
  const small = Math.max(1, Math.ceil(Math.max(film.widthPx, film.heightPx) / SEARCH_PX))
  const overview = await filmGrid(film, { cellPx: small })
  expectMarks(overview)
  const found = register(
    overview,
    photoGrid(photo),
    corners && cornerGuesses(corners, { photo, film }),
  )
  const alignment = expectLikeness(found, corners !== undefined)
  const fine = await filmGrid(film, {
    cellPx: cellPxFor(alignment, { photo, film }),
    withGreys: true,
  })
  const cellUm = cellUmOf(fine, film)
  const keepsFilm = onLaid !== undefined
  const photoPixelUm = film.pixelUm * filmPxPerPhotoPx(alignment, { photo, film })
  const result = compared({
    photo,
    film: fine,
    alignment,
    cellUm,
    photoPixelUm,
    limitUm,
    keepsFilm,
  })
  onLaid?.({ screen: result.openness, film: fine, cellUm })
  const findings = inOrderOfWork(result.findings)
  const mirrored = isMirrored(alignment.pose)
  return {
    kind: 'inspection',
    verdict: verdictOf(findings),
    mirrored,
    resolutionUm: result.resolutionUm,
    findings,
    warnings: [...(mirrored ? [MIRRORED] : []), ...result.warnings],
  }
}

const MIRRORED =
  'The photo shows the picture the other way round than the film; seen from the other side of the screen that is as it should be, else the film lay with its wrong side to the emulsion.'

/** Shares of marks, `cellPx` film pixels to a cell. */
export async function filmGrid(
  film: Film,
  { cellPx, withGreys = false }: Readonly<{ cellPx: number; withGreys?: boolean }>,
): Promise<Grid & Shares> {
  const plane = await markShares(film, { cellPx, belowTransmission: MARK_BELOW, withGreys })
  const size = { width: film.widthPx, height: film.heightPx, pixel: cellPx }
  return { ...gridOf(plane, size), greys: plane.greys }
}

function cellUmOf(grid: Grid, film: Film): number {
  return ((grid.step * Math.max(film.widthPx, film.heightPx)) / 2) * film.pixelUm
}

/** The photo halved from its full size while its longer side stays well above SEARCH_PX. */
export function photoGrid(photo: PhotoLight): Grid {
  const longer = Math.max(photo.widthPx, photo.heightPx)
  let pixel = 1
  while (Math.floor(longer / pixel) >= 3 * SEARCH_PX) pixel *= 2
  return gridOf(reduced(photo, pixel), { width: photo.widthPx, height: photo.heightPx, pixel })
}

/** Film pixels to a cell, so that a cell is about a photo pixel: a whole number, or one over one. */
export function cellPxFor(
  alignment: LitAlignment,
  pictures: Readonly<{ photo: PhotoLight; film: Film }>,
): number {
  const ratio = filmPxPerPhotoPx(alignment, pictures)
  return ratio >= 0.75 ? Math.max(1, Math.round(1.1 * ratio)) : 1 / Math.round(1 / ratio)
}

function filmPxPerPhotoPx(
  { pose }: LitAlignment,
  { photo, film }: Readonly<{ photo: PhotoLight; film: Film }>,
): number {
  const photoLonger = Math.max(photo.widthPx, photo.heightPx)
  const filmLonger = Math.max(film.widthPx, film.heightPx)
  return filmLonger / (photoLonger * magnification(pose))
}

function expectMarks({ values }: Grid): void {
  if (values.some((share) => share > 0.5)) return
  throw new Failure(
    'wrong input',
    'The film holds no mark that could be looked for; give the film this screen was made with.',
    { field: 'film' },
  )
}

/** Below, the film explains too little of the photo to speak of the same picture (judged). */
const LEAST_FIT = 0.35

function expectLikeness(found: Registration | null, cornersGiven: boolean): LitAlignment {
  const advice = cornersGiven
    ? 'check the corners, or take the photo straight on, sharp, with light behind the whole screen'
    : 'give its corners, or take the photo straight on, sharp, with light behind the whole screen'
  if (found === null || found.best.fit < LEAST_FIT) {
    throw refused(`The film's picture is not to be found in this photo; ${advice}.`)
  }
  if (!found.isSettled) {
    throw refused(`The film's picture does not lie exactly over this photo; ${advice}.`)
  }
  if (found.best.insideShare < 0.995) {
    throw refused('The photo does not show the whole picture; take it from further away.')
  }
  return found.best
}

function refused(message: string): Failure {
  return new Failure('wrong input', message, { field: 'PHOTO' })
}
