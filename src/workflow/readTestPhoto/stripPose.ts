import { Failure } from '../../core/failure.ts'
import { homographyThrough, type Point } from '../../core/inspection/homography.ts'
import type { Film } from '../../raster/film.ts'
import type { Alignment } from '../../raster/inspect/align.ts'
import { type Pose, straightPose } from '../../raster/inspect/pose.ts'
import { register } from '../../raster/inspect/register.ts'
import type { PhotoLight } from '../../raster/photo/photoLight.ts'
import { filmGrid, photoGrid } from '../inspectScreen/inspectScreen.ts'
import type { FilmLayout } from '../papers/testFilmLayout.ts'
import { wrongPhoto } from './wrongPhoto.ts'

/** Longer side of the film while it is looked for. */
const SEARCH_PX = 1024
/** Below, the film explains too little of the photo: half of a strip's marks may be gone (judged). */
const LEAST_FIT = { found: 0.3, shown: 0.15 }
/** The photo shows so much of the film at least: only its margins may be cut off. */
const LEAST_INSIDE = 0.97

/**
 * How the film of a strip lies in a photo of the washed-out screen.
 *
 * @param corners the points at the sheet's edges where the first band begins and the last one ends,
 *   in photo pixels, round; looked for when they are left out
 * @throws Failure 'wrong input' where it is not there
 */
export async function stripPose(
  photo: PhotoLight,
  film: Film,
  { layout, corners }: Readonly<{ layout: FilmLayout; corners?: readonly Point[] }>,
): Promise<Alignment> {
  const small = Math.max(1, Math.ceil(Math.max(film.widthPx, film.heightPx) / SEARCH_PX))
  const guesses = corners && guessesFrom(corners, { photo, layout })
  const found = register(await filmGrid(film, small), photoGrid(photo), guesses)
  const least = corners === undefined ? LEAST_FIT.found : LEAST_FIT.shown
  if (found === null || found.best.fit < least || !found.isSettled) {
    throw wrongPhoto(
      corners === undefined
        ? 'I do not find the test film’s picture in this photo; show where its four outer points are, or take it straight on, sharp, with light behind all of the screen.'
        : 'The test film’s picture does not lie between these points; check them, how many bands it has and its paper, or take a sharper photo.',
    )
  }
  if (found.best.insideShare < LEAST_INSIDE) {
    throw wrongPhoto('The photo does not show all of the strip; take it from further away.')
  }
  return found.best
}

/** Tips of the points stand so far in from the sheet's sides. */
export const TIP_MM = 8.4

/** Where the tips lie on the film, clockwise from the top left, in mm. */
export function tipsOf({ widthMm, edgesMm }: FilmLayout): readonly Point[] {
  const [top = 0, bottom = 0] = [edgesMm[0], edgesMm.at(-1)]
  return [
    { x: TIP_MM, y: top },
    { x: widthMm - TIP_MM, y: top },
    { x: widthMm - TIP_MM, y: bottom },
    { x: TIP_MM, y: bottom },
  ]
}

/** Each of them may be the top left one, and the film may be mirrored. */
function guessesFrom(
  corners: readonly Point[],
  { photo, layout }: Readonly<{ photo: PhotoLight; layout: FilmLayout }>,
): readonly Pose[] {
  const half = Math.max(photo.widthPx, photo.heightPx) / 2
  const longer = Math.max(layout.widthMm, layout.heightMm) / 2
  const own = tipsOf(layout).map(({ x, y }) => ({
    x: (x - layout.widthMm / 2) / longer,
    y: (y - layout.heightMm / 2) / longer,
  }))
  const seen = corners.map(({ x, y }) => ({
    x: (x - photo.widthPx / 2) / half,
    y: (y - photo.heightPx / 2) / half,
  }))
  return [0, 1, 2, 3].flatMap((turn) =>
    [1, -1].map((way) => {
      const pairs = own.map((from, at) => ({
        from,
        to: seen[(turn + way * at + 8) % 4] ?? from,
      }))
      const homography = homographyThrough(pairs)
      if (homography === null) {
        const message = 'Three of the points lie on a line; show all four.'
        throw new Failure('wrong input', message, { field: 'corners' })
      }
      return straightPose(homography)
    }),
  )
}
