import { Failure } from '../../core/failure.ts'
import type { ClearLight } from '../../raster/photo/clearLight.ts'
import type { Turned } from '../../raster/photo/densities.ts'
import type { SheetColour } from '../../raster/photo/sheetColour.ts'

/** What a photo must not be, each judged, and the sentence it then gets. */
type Told = Readonly<{
  turned: Turned
  light: ClearLight
  /** null for a grey file, or where nothing could be compared. */
  colour: SheetColour | null
  /** Narrowest line, in pixels of the sheet; null where nothing has an edge. */
  linePx: number | null
  longerPx: number
  highest: number
  /** A step wedge that was read, or the mat's targets: such a photo is of a film. */
  isVouchedFor: boolean
}>

const MOST_CLIPPED = 0.5
const MOST_CLEAR_CLIPPED = 0.8
const LEAST_MARKED = 0.0003
const LEAST_HIGHEST = { vouchedFor: 0.5, else: 1 }
const MOST_GLARE = 0.12
const BLURRED = { px: 8, share: 1 / 160 }
/** Marks without a sharp edge are believed on a sheet as clear as this. */
const PLAINLY_CLEAR = 0.8
/** A base this much denser than what lies around it shows a sheet on a light table. */
const LEAST_BASE = 0.02
/** Less clear than `share`, and what is clear as uneven as `scatter` of its density: no film, no table. */
const TEXTURED = { share: 0.3, scatter: 0.0095 }
/** Another colour than the clear's on so much of the sheet, and not all of one ink. */
const COLOURED = { share: 0.12, oneWay: 0.97 }
/** Of one ink, but on a sheet with hardly any clear. */
const COLOURED_ALL_OVER = 0.4

/** @throws Failure 'wrong input' in one sentence where the photo shows no film that can be read */
export function expectFilm(told: Told): void {
  const { clippedShare, markedShare, glareShare } = told.turned
  const { light, linePx, longerPx, highest, isVouchedFor } = told
  const isOnTable = isVouchedFor || (light.base ?? 0) > LEAST_BASE
  const sayings: readonly (readonly [boolean, string])[] = [
    [
      clippedShare > MOST_CLIPPED || clippedShare > MOST_CLEAR_CLIPPED * light.clearShare,
      'Most of the film is plain white in the photo, so its marks cannot be measured; take it darker, until clear film is just no longer white.',
    ],
    [
      markedShare < LEAST_MARKED,
      'The photo shows nothing but light where the film should be; check the corners, and that the film lies there.',
    ],
    [
      highest < (isVouchedFor ? LEAST_HIGHEST.vouchedFor : LEAST_HIGHEST.else),
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
      linePx === null && !isOnTable && light.clearShare < PLAINLY_CLEAR,
      'Nothing where the film should be has a sharp edge, as marks on a film have; check the corners, focus on the film and take the photo again.',
    ],
    [
      !isVouchedFor && isManyColoured(told),
      'What is seen there has several colours, so it is no film on a light table; check the corners, or lay a step wedge beside the film if it is one.',
    ],
    [
      !isOnTable && light.clearShare < TEXTURED.share && light.unevenness > TEXTURED.scatter,
      'No clear film and no even light is seen there, so densities have nothing to start from; lay the film on a light table, with a step wedge beside it.',
    ],
  ]
  const said = sayings.find(([holds]) => holds)
  if (said !== undefined) throw new Failure('wrong input', said[1], { field: 'photo' })
}

function isManyColoured({ colour, light }: Told): boolean {
  if (colour === null) return false
  const { share, oneWay } = colour
  if (share > COLOURED.share && oneWay < COLOURED.oneWay) return true
  return share > COLOURED_ALL_OVER && light.clearShare < TEXTURED.share && light.base === null
}
