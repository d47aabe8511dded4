import type { Knots } from '../../kernels/photoPlanes.ts'
import { lightReader } from './lightCode.ts'
import type { PhotoLight } from './photoLight.ts'

/** Places are reckoned exactly every so many pixels both ways, and lie on a line between. */
export const STRETCH = 16

const { floor, fround } = Math

/**
 * Lays rows out of a photo: light between four pixels, less the ground, over the gain; NaN outside
 * the photo. The kernel's own operations, in 32 bits.
 *
 * @returns lays one row by its knots, every STRETCH pixels, and says how many are outside
 */
export function rowLayer({
  widthPx,
  heightPx,
  values,
}: PhotoLight): (knots: Knots, out: Float32Array) => number {
  const lightAt = lightReader(values)
  const across = (from: number, share: number): number => {
    const one = lightAt(from)
    return fround(one + fround(share * fround(lightAt(from + 1) - one)))
  }
  return ({ x: xs, y: ys, ground: grounds, gain: gains }, out) => {
    let unseen = 0
    for (let start = 0, knot = 0; start < out.length; start += STRETCH, knot += 1) {
      const count = Math.min(STRETCH, out.length - start)
      const [left, top] = [floor(xs[knot]), floor(ys[knot])]
      const [x0, dx] = [fround(xs[knot] - left), stepOf(xs, knot)]
      const [y0, dy] = [fround(ys[knot] - top), stepOf(ys, knot)]
      const [ground0, dGround] = [fround(grounds[knot]), stepOf(grounds, knot)]
      const [gain0, dGain] = [fround(gains[knot]), stepOf(gains, knot)]
      for (let at = 0; at < count; at += 1) {
        const x = fround(x0 + fround(at * dx))
        const y = fround(y0 + fround(at * dy))
        const column = left + floor(x)
        const row = top + floor(y)
        if (!(column >= 0 && row >= 0 && column < widthPx - 1 && row < heightPx - 1)) {
          out[start + at] = Number.NaN
          unseen += 1
          continue
        }
        const share = fround(x - floor(x))
        const from = row * widthPx + column
        const upper = across(from, share)
        const lower = across(from + widthPx, share)
        const light = fround(upper + fround(fround(y - floor(y)) * fround(lower - upper)))
        const ground = fround(ground0 + fround(at * dGround))
        const gain = fround(gain0 + fround(at * dGain))
        out[start + at] = fround(light - ground) / gain
      }
    }
    return unseen
  }
}

function stepOf(knots: Float64Array, at: number): number {
  return fround((knots[at + 1] - knots[at]) / STRETCH)
}

/** Knots of a row between two: `part` of the way from the upper to the lower, written into `out`. */
export function knotsBetween(
  [upper, lower]: readonly [Knots, Knots],
  part: number,
  out: Knots,
): void {
  for (const key of ['x', 'y', 'ground', 'gain'] as const) {
    const [to, above, below] = [out[key], upper[key], lower[key]]
    for (let knot = 0; knot < to.length; knot += 1) {
      to[knot] = above[knot] + part * (below[knot] - above[knot])
    }
  }
}

/** Light as it is: nothing taken off, divided by 1. */
export function emptyKnots(count: number): Knots {
  return {
    x: new Float64Array(count),
    y: new Float64Array(count),
    ground: new Float64Array(count),
    gain: new Float64Array(count).fill(1),
  }
}
