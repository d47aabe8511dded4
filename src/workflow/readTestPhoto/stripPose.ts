import { Failure } from '../../core/failure.ts'
import { homographyThrough, type Point } from '../../core/inspection/homography.ts'
import type { Film } from '../../raster/film.ts'
import type { Grid } from '../../raster/inspect/grid.ts'
import { type Pose, straightPose } from '../../raster/inspect/pose.ts'
import { type Registration, register } from '../../raster/inspect/register.ts'
import type { PhotoLight } from '../../raster/photo/photoLight.ts'
import { filmGrid, photoGrid } from '../inspectScreen/inspectScreen.ts'
import type { FilmLayout } from '../papers/testFilmLayout.ts'
import { wrongPhoto } from './wrongPhoto.ts'

/** Longer side of the film while it is looked for. */
const SEARCH_PX = 1024
/** Below, the film explains too little of the photo to be its film (judged). */
const LEAST_FIT = 0.35
/** A film that explains as much as this lies where it is said to. */
const GOOD_FIT = 0.6
/** The photo shows so much of the film at least: only its margins may be cut off. */
const LEAST_INSIDE = 0.97

/**
 * How the film of a strip lies in a photo of the washed-out screen.
 *
 * @param corners the points at the sheet's sides above the first band and below the last one that
 *   still stands, in photo pixels, round; without them the whole film is looked for
 * @throws Failure 'wrong input' where it is not there
 */
export async function stripPose(
  photo: PhotoLight,
  film: Film,
  { layout, corners }: Readonly<{ layout: FilmLayout; corners?: readonly Point[] }>,
): Promise<Registration['best']> {
  const small = Math.max(1, Math.ceil(Math.max(film.widthPx, film.heightPx) / SEARCH_PX))
  const [own, seen] = [await filmGrid(film, { cellPx: small }), photoGrid(photo)]
  const found =
    corners === undefined
      ? register(own, seen)
      : bestOf(
          standing(layout).map(
            (bands) => () =>
              register(
                upTo(own, { layout, bands }),
                seen,
                guessesFrom(corners, { photo, layout, bands }),
              ),
          ),
        )
  if (found === null || found.best.fit < LEAST_FIT || !found.isSettled) {
    throw wrongPhoto(
      corners === undefined
        ? 'I do not find the whole test film’s picture in this photo; check its paper and its doses, show where its bands are, or take it straight on with light behind all of the screen.'
        : 'The test film’s picture does not lie between these points; check them, how many bands it has and its paper, or take a sharper photo.',
    )
  }
  if (found.best.insideShare < LEAST_INSIDE) {
    throw wrongPhoto('The photo does not show all of the strip; take it from further away.')
  }
  return found.best
}

/** How many bands may still stand: all, or all but those with least light. */
function standing({ edgesMm }: FilmLayout): readonly number[] {
  const bands = edgesMm.length - 1
  const least = Math.max(2, bands - MOST_GONE)
  return Array.from({ length: bands - least + 1 }, (_, gone) => bands - gone)
}

const MOST_GONE = 4

/** The first that is good, or the best of all. */
function bestOf(tries: readonly (() => Registration | null)[]): Registration | null {
  let best: Registration | null = null
  for (const attempt of tries) {
    const next = attempt()
    if (next === null || (best !== null && better(best, next))) continue
    best = next
    if (best.best.fit >= GOOD_FIT && best.isSettled) break
  }
  return best
}

function better(one: Registration, other: Registration): boolean {
  if (one.isSettled !== other.isSettled) return one.isSettled
  return one.best.fit >= other.best.fit
}

/**
 * The film down to the edge below so many bands: where the ground is gone further down, the film
 * does not say what is seen there.
 */
function upTo(
  grid: Grid,
  { layout: { edgesMm, heightMm }, bands }: Readonly<{ layout: FilmLayout; bands: number }>,
): Grid {
  const bottomMm = edgesMm[bands]
  if (bottomMm === undefined || bands === edgesMm.length - 1) return grid
  const heightPx = Math.floor((grid.heightPx * bottomMm) / heightMm)
  return { ...grid, heightPx, values: grid.values.subarray(0, grid.widthPx * heightPx) }
}

/** Tips of the points stand so far in from the sheet's sides. */
const TIP_MM = 8.4

/** Where the tips round so many bands lie on the film, clockwise from the top left, in mm. */
function tipsOf({ widthMm, edgesMm }: FilmLayout, bands: number): readonly Point[] {
  const [top = 0, bottom = 0] = [edgesMm[0], edgesMm[bands]]
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
  { photo, layout, bands }: Readonly<{ photo: PhotoLight; layout: FilmLayout; bands: number }>,
): readonly Pose[] {
  const half = Math.max(photo.widthPx, photo.heightPx) / 2
  const longer = Math.max(layout.widthMm, layout.heightMm) / 2
  const own = tipsOf(layout, bands).map(({ x, y }) => ({
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
