import { Failure } from '../../core/failure.ts'
import {
  type Difference,
  type Finding,
  kindOf,
  lengthAndWidth,
} from '../../core/inspection/findings.ts'
import { differences, type Limits } from '../../raster/inspect/differences.ts'
import { evenOut } from '../../raster/inspect/evenOut.ts'
import type { Grid } from '../../raster/inspect/grid.ts'
import type { Shares } from '../../raster/inspect/markShares.ts'
import { blur, type Plane } from '../../raster/inspect/plane.ts'
import { type Region, regionsOf } from '../../raster/inspect/regions.ts'
import type { LitAlignment } from '../../raster/inspect/register.ts'
import { blurOf, TOO_SOFT_PX } from '../../raster/inspect/sharpness.ts'
import { straightened } from '../../raster/inspect/straighten.ts'
import { smoothed } from '../../raster/inspect/texture.ts'
import { together } from '../../raster/inspect/together.ts'
import type { PhotoLight } from '../../raster/photo/photoLight.ts'

export type Compared = Readonly<{
  resolutionUm: number
  findings: readonly Finding[]
  warnings: readonly string[]
  /** What comes through the screen, laid over the film: 0 … 1. */
  openness: Plane
}>

/** Texture up to which differences can be told; coarser is smoothed away first. */
const MOST_TEXTURE = { groundSd: 0.06, openSd: 0.08 }

/** A skin that takes away less of the light than this must still be told (judged). */
const MOST_VEIL = 0.4
const COARSE_PATTERN =
  'The weave draws a coarse pattern in this photo: a thin skin over open marks would not show; take another from a little nearer or further away.'

const MOST_UNSEEN = 0.01
const UNSEEN_MARGIN =
  'The photo cuts off part of the film’s margin; nothing is said about that part.'

/** Shut places as near as this are one finding (judged). */
const TOGETHER_UM = 1000

/** No photo shows what is narrower than two of its pixels. */
const LEAST_PHOTO_PX = 2

/** The film's cells are means over squares, and its edges as soft: of an even spread over one. */
const CELL_SD = 1 / Math.sqrt(12)

/** Width at half height of a Gaussian, in standard deviations. */
const FULL_WIDTH = 2 * Math.sqrt(2 * Math.LN2)

/** Screen and film cell by cell, once it is known how they lie. */
export function compared({
  photo,
  film,
  alignment,
  cellUm,
  photoPixelUm,
  limitUm,
  keepsFilm,
}: Readonly<{
  photo: PhotoLight
  /** Is used up unless it is to be kept. */
  film: Grid & Shares
  keepsFilm: boolean
  alignment: LitAlignment
  cellUm: number
  /** A pixel of the photo on the film. */
  photoPixelUm: number
  limitUm: number
}>): Compared {
  const { openness, unseen } = straightened(photo, film, alignment)
  evenOut(openness, film)
  const blurPx = blurOf(openness, film)
  if (blurPx >= TOO_SOFT_PX) {
    throw new Failure(
      'wrong input',
      'The photo is too soft to judge the screen by; hold still, let it focus on the picture and take it again.',
      { field: 'PHOTO' },
    )
  }
  const texture = smoothed(openness, film, MOST_TEXTURE)
  const expected: Shares = keepsFilm ? { ...film, values: film.values.slice() } : film
  const sdPx = Math.hypot(blurPx, texture.sdPx)
  blur(expected, sdPx)
  const limits: Limits = {
    openWeak: Math.max(0.15, 3 * texture.groundSd),
    openStrong: Math.max(0.45, 5 * texture.groundSd),
    shutWeak: Math.max(0.15, 2.5 * texture.openSd),
    shutStrong: Math.max(0.28, 4 * texture.openSd),
  }
  const found = regionsOf(differences(openness, expected, limits), { openness, expected })
  const told = FULL_WIDTH * Math.hypot(sdPx, CELL_SD)
  // what is too narrow to be told is too narrow to make others larger
  const regions = together(
    found.filter((region) => region.cells >= told * told && !isChance(region)),
    TOGETHER_UM / cellUm,
  )
  const tellsUm = Math.max(LEAST_PHOTO_PX * photoPixelUm, told * cellUm, limitUm)
  const resolutionUm = Math.ceil(tellsUm / 5) * 5
  return {
    resolutionUm,
    findings: regions
      .map((region) => findingOf(region, { cellUm, sdPx }))
      .filter(({ widthUm }) => widthUm >= resolutionUm),
    warnings: [
      ...(limits.shutStrong > MOST_VEIL ? [COARSE_PATTERN] : []),
      ...(unseen > MOST_UNSEEN * film.values.length ? [UNSEEN_MARGIN] : []),
    ],
    openness,
  }
}

/** Among so many cells one or two open ones look shut by the grain of photo and fabric (judged). */
function isChance({ sign, strong }: Region): boolean {
  return sign === 'shut' && strong < 3
}

function findingOf(
  region: Region,
  { cellUm, sdPx }: Readonly<{ cellUm: number; sdPx: number }>,
): Finding {
  const difference = measured(region, { cellUm, sdPx })
  return {
    kind: kindOf(difference),
    xMm: rounded((region.x * cellUm) / 1000, 100),
    yMm: rounded((region.y * cellUm) / 1000, 100),
    areaMm2: rounded(difference.areaMm2, 1000),
    widthUm: rounded(difference.widthUm, 1),
  }
}

/**
 * Where a blurred edge falls to 0.15, in standard deviations of the blur, and the share of light that
 * lies beyond it, in them: of the normal distribution, 1.036 and φ(1.036) − 1.036 · 0.15.
 */
const CARRIED_SD = 1.036
const LOST_SD = 0.078

function measured(
  region: Region,
  { cellUm, sdPx }: Readonly<{ cellUm: number; sdPx: number }>,
): Difference {
  const seenShare = Math.max(0, region.seen / region.expected)
  const depth = region.sign === 'shut' && seenShare > 0.2 ? 1 - seenShare : 1
  // blur carries the outline outwards, and what it carries further no longer counts
  const outline = Math.max(4, region.outline - 2 * Math.PI * CARRIED_SD * sdPx)
  // a difference summed over a blurred spot is the spot's area times its depth
  const area = region.amount / depth + LOST_SD * sdPx * outline
  // an edge that broke on both sides of a line is as wide as its pieces together
  const across = Math.sqrt((4 * area) / Math.PI)
  const { length, width } =
    region.pieces > 1 && region.sign === 'open'
      ? { length: across, width: across }
      : lengthAndWidth(area, outline)
  return {
    sign: region.sign,
    areaMm2: area * (cellUm / 1000) ** 2,
    lengthUm: length * cellUm,
    widthUm: width * cellUm,
    edgeShare: region.besideEdge / region.sides,
    seenShare,
  }
}

/** To whole parts of one: nobody measures finer in a photo. */
function rounded(value: number, parts: number): number {
  return Math.round(value * parts) / parts
}
