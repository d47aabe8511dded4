import { Failure } from '../../core/failure.ts'
import { homographyThrough } from '../../core/inspection/homography.ts'
import type { Film } from '../../raster/film.ts'
import { type Pose, straightPose } from '../../raster/inspect/pose.ts'
import type { PhotoLight } from '../../raster/photo/photoLight.ts'

/** Photo pixels from the left and from the top. */
export type Corner = Readonly<{ x: number; y: number }>

/**
 * The ways a film may lie between four corners: each may be its top left, and it may be mirrored.
 *
 * @throws Failure 'wrong input' where three of them lie on a line
 */
export function cornerGuesses(
  corners: readonly Corner[],
  { photo, film }: Readonly<{ photo: PhotoLight; film: Film }>,
): readonly Pose[] {
  const half = Math.max(photo.widthPx, photo.heightPx) / 2
  const longer = Math.max(film.widthPx, film.heightPx)
  const [u, v] = [film.widthPx / longer, film.heightPx / longer]
  const own = [
    { x: -u, y: -v },
    { x: u, y: -v },
    { x: u, y: v },
    { x: -u, y: v },
  ]
  const seen = corners.map(({ x, y }) => ({
    x: (x - photo.widthPx / 2) / half,
    y: (y - photo.heightPx / 2) / half,
  }))
  return [0, 1, 2, 3].flatMap((turn) =>
    [1, -1].map((way) => {
      const pairs = own.map((from, at) => {
        const to = seen[(turn + way * at + 8) % 4]
        if (to === undefined) throw new RangeError('corners: expected four')
        return { from, to }
      })
      const homography = homographyThrough(pairs)
      if (homography === null) {
        throw new Failure(
          'wrong input',
          'Three of the corners lie on one line; give the four corners of the film, clockwise.',
          { field: 'corners' },
        )
      }
      return straightPose(homography)
    }),
  )
}
