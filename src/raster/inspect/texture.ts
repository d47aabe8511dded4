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
  const [ground, open] = [new Uint32Array(BINS), new Uint32Array(BINS)]
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
      const off = openness.values[at] - share
      if (!alone || Math.abs(off) >= MOST_OFF) continue
      const bins = share === 0 ? ground : open
      bins[Math.floor(((off + MOST_OFF) / (2 * MOST_OFF)) * BINS)] += 1
    }
  }
  const groundSd = spread(ground) ?? 0
  return { groundSd, openSd: spread(open) ?? groundSd }
}

/** Bins of openness about what it should be, from one end to the other. */
const BINS = 400

/** Middle spread as an sd, or the spread of the outer tenth where that is wider. */
function spread(bins: Uint32Array): number | null {
  const total = bins.reduce((sum, count) => sum + count, 0)
  if (total < LEAST_SAMPLES) return null
  const middle = rank(bins, total / 2)
  const off = new Uint32Array(BINS)
  for (let bin = 0; bin < BINS; bin += 1) off[Math.abs(bin - middle)] += bins[bin]
  const [half, outer] = [rank(off, 0.5 * total), rank(off, 0.9 * total)]
  return Math.max(1.48 * half, outer / 1.645) * ((2 * MOST_OFF) / BINS)
}

/** The first bin up to which so many are counted. */
function rank(bins: Uint32Array, count: number): number {
  let [bin, sum] = [0, bins[0]]
  while (sum < count) sum += bins[++bin]
  return bin
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
