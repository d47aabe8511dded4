import { blur, type Plane } from './plane.ts'

/** Spread of openness over plain ground and over plain open places, as standard deviations. */
export type Texture = Readonly<{ groundSd: number; openSd: number }>

const REACH = 4
const MOST_SAMPLES = 40000
/** Further off it is a fault, not texture. */
const MOST_OFF = 0.4
/** Too few open cells to judge by. */
const LEAST_SAMPLES = 200

/**
 * How uneven fabric, noise and the photo's own coding leave what should be even. The widest of a
 * thousand counts, not the usual one: rings of moire are no faults.
 */
export function textureOf(openness: Plane, shares: Plane): Texture {
  const { widthPx, heightPx, values } = shares
  const every = Math.max(1, Math.floor(Math.sqrt(values.length / MOST_SAMPLES / 4)))
  const [ground, open]: [number[], number[]] = [[], []]
  for (let y = REACH; y < heightPx - REACH; y += every) {
    for (let x = REACH; x < widthPx - REACH; x += every) {
      const at = y * widthPx + x
      const share = values[at]
      if (share !== 0 && share !== 1) continue
      const alone =
        values[at - REACH] === share &&
        values[at + REACH] === share &&
        values[at - REACH * widthPx] === share &&
        values[at + REACH * widthPx] === share
      const value = openness.values[at]
      if (alone && Math.abs(value - share) < MOST_OFF) (share === 0 ? ground : open).push(value)
    }
  }
  const groundSd = spread(ground) ?? 0
  return { groundSd, openSd: spread(open) ?? groundSd }
}

/** Middle spread as an sd, or the spread of the outer tenth where that is wider. */
function spread(list: readonly number[]): number | null {
  if (list.length < LEAST_SAMPLES) return null
  const sorted = Float64Array.from(list).sort()
  const middle = sorted[sorted.length >> 1]
  const off = sorted.map((value) => Math.abs(value - middle)).sort()
  return Math.max(1.48 * off[off.length >> 1], off[Math.floor(0.9 * off.length)] / 1.645)
}

const SMOOTHING_PX = [0.7, 1, 1.4, 2] as const
/** Blurring that leaves more than this share of the texture is not worth its loss (judged). */
const MOST_LEFT = 0.75

/**
 * Blurs openness, in place, by as little as makes the texture fine enough; not at all where blur
 * does not help, as with broad moire.
 *
 * @returns the sd of the blur in cells, and the texture that is left
 */
export function smoothed(
  openness: Plane,
  shares: Plane,
  most: Texture,
): Texture & Readonly<{ sdPx: number }> {
  const isFine = ({ groundSd, openSd }: Texture): boolean =>
    groundSd <= most.groundSd && openSd <= most.openSd
  const start = textureOf(openness, shares)
  if (isFine(start)) return { ...start, sdPx: 0 }
  const before = Float32Array.from(openness.values)
  let done = 0
  for (const sdPx of SMOOTHING_PX) {
    blur(openness, Math.sqrt(sdPx * sdPx - done * done))
    done = sdPx
    const texture = textureOf(openness, shares)
    if (isFine(texture)) return { ...texture, sdPx }
    const isBroad =
      texture.groundSd > MOST_LEFT * start.groundSd && texture.openSd > MOST_LEFT * start.openSd
    if (isBroad && sdPx >= 1) break
  }
  openness.values.set(before)
  return { ...start, sdPx: 0 }
}
