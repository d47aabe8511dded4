import { um } from '../core/units/quantity.ts'
import type { Film } from '../raster/film.ts'
import { type GradePicture, gradeDoses, gradePicture } from './gradePicture.ts'
import type { Setup } from './setup.ts'

/** Signs of a failed screen that the forecast can draw. */
export const PICTURED_SIGNS = [
  'ground washes off',
  'slime inside',
  'thin marks shut',
  'nothing opens',
  'soft edges',
  'blurred in one place',
  'one side weak',
  'mirrored',
] as const

export type PicturedSign = (typeof PICTURED_SIGNS)[number]

export function isPicturedSign(name: string): name is PicturedSign {
  return PICTURED_SIGNS.some((each) => each === name)
}

type Leaks = Readonly<{ pale: number; middling: number }>

/** So far from the coat film lies that is not drawn down. Judged. */
const LOOSE_GAP_UM = 350
/** The weak side gets this share of what the good one gets. Judged. */
const WEAK_SHARE = 0.16

/**
 * What a sign looks like on this fabric, against the light: the same small film at the dose, gap and
 * light that bring it about.
 *
 * @param film small: it is held whole
 * @source jacobs1992, spread-contract
 */
export async function signPicture(
  film: Film,
  setup: Setup,
  { sign, leaks }: Readonly<{ sign: PicturedSign; leaks: Leaks }>,
): Promise<GradePicture> {
  const doses = gradeDoses(setup, leaks)
  const drawn = (doseLu: number, at = setup): Promise<GradePicture> =>
    gradePicture(film, at, { doseLu })
  switch (sign) {
    case 'ground washes off':
      return drawn(doses['washed off'])
    case 'slime inside':
      return drawn(doses.soft)
    case 'thin marks shut':
      return drawn(doses.filling)
    case 'nothing opens':
      return drawn(doses.filled * SHUT_TIMES)
    case 'soft edges':
      return drawn(doses.good, loose(setup))
    case 'blurred in one place':
      return parted([await drawn(doses.good), await drawn(doses.good, loose(setup))], (x, y) =>
        Math.hypot(x - 0.28, y - 0.55) < 0.3 ? 1 : 0,
      )
    case 'one side weak':
      return gradePicture(film, setup, { doseLu: doses.good, leftShare: WEAK_SHARE })
    case 'mirrored':
      return mirroredOf(await drawn(doses.good))
  }
}

/** So much more than fills in most marks shuts them all. Judged. */
const SHUT_TIMES = 40

function loose(setup: Setup): Setup {
  return { ...setup, contact: { ...setup.contact, gapUm: um(LOOSE_GAP_UM) } }
}

/** Of pictures of one size at each place the one that is chosen there; places from 0 to 1. */
function parted(
  pictures: readonly GradePicture[],
  chosen: (x: number, y: number) => number,
): GradePicture {
  const [first] = pictures
  if (first === undefined) throw new RangeError('pictures: expected one at least, got none')
  const { widthPx, heightPx } = first
  const rgb = new Uint8Array(first.rgb.length)
  for (let row = 0; row < heightPx; row += 1) {
    for (let column = 0; column < widthPx; column += 1) {
      const at = 3 * (row * widthPx + column)
      const from = pictures[chosen(column / widthPx, row / heightPx)] ?? first
      rgb.set(from.rgb.subarray(at, at + 3), at)
    }
  }
  return { rgb, widthPx, heightPx }
}

function mirroredOf({ rgb, widthPx, heightPx }: GradePicture): GradePicture {
  const turned = new Uint8Array(rgb.length)
  for (let row = 0; row < heightPx; row += 1) {
    for (let column = 0; column < widthPx; column += 1) {
      const from = 3 * (row * widthPx + column)
      turned.set(rgb.subarray(from, from + 3), 3 * (row * widthPx + widthPx - 1 - column))
    }
  }
  return { rgb: turned, widthPx, heightPx }
}
