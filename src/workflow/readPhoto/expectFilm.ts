import { Failure } from '../../core/failure.ts'
import type { Turned } from '../../raster/photo/densities.ts'

/** What a photo must not be, each judged, and the sentence it then gets. */
type Told = Readonly<{
  turned: Turned
  /** Narrowest line, in pixels of the sheet; null where nothing has an edge. */
  linePx: number | null
  longerPx: number
  highest: number
  hasWedge: boolean
}>

const MOST_CLIPPED = 0.5
const LEAST_MARKED = 0.0003
const LEAST_HIGHEST = 0.5
const MOST_GLARE = 0.12
const BLURRED = { px: 8, share: 1 / 160 }

/** @throws Failure 'wrong input' in one sentence where the photo shows no film that can be read */
export function expectFilm({ turned, linePx, longerPx, highest, hasWedge }: Told): void {
  const { clippedShare, markedShare, glareShare } = turned
  const sayings: readonly (readonly [boolean, string])[] = [
    [
      clippedShare > MOST_CLIPPED,
      'Most of the film is plain white in the photo, so its marks cannot be measured; take it darker, until clear film is just no longer white.',
    ],
    [
      markedShare < LEAST_MARKED,
      'The photo shows nothing but light where the film should be; check the corners, and that the film lies there.',
    ],
    [
      highest < LEAST_HIGHEST,
      'The photo is too grainy to tell one density from another; give it more light and hold the camera still.',
    ],
    [
      glareShare > MOST_GLARE,
      'Much of what should be film is brighter than its clear parts, so this is no film on an even light table, or lamps are mirrored in it; light it from behind alone.',
    ],
    [
      linePx !== null && linePx > BLURRED.px && linePx > BLURRED.share * longerPx,
      'The photo is blurred: no edge in it is sharp. Hold the camera still, tap on the film to focus, and take it again.',
    ],
    [
      linePx === null && !hasWedge,
      'Nothing where the film should be has a sharp edge, as marks on a film have; check the corners, focus on the film and take the photo again.',
    ],
  ]
  const said = sayings.find(([holds]) => holds)
  if (said !== undefined) throw new Failure('wrong input', said[1], { field: 'photo' })
}
