import type { LightPlane } from './photoLight.ts'
import { reduced } from './reduced.ts'

/** Edges looked at along rows and columns, at most. */
const MOST = 4000
/** Profiles over an edge: half their length and the even part at each end, in pixels. */
type Profile = Readonly<{ reach: number; flank: number }>
const LONG: Profile = { reach: 10, flank: 3 }
/** Between the strokes of a hatching there is no more room. */
const SHORT: Profile = { reach: 6, flank: 2 }
/** Both sides of an edge must be even to this part of its height (judged). */
const EVEN = 0.12

/**
 * How far the photo spreads an edge: the standard deviation of its spread function, in pixels of
 * the sheet, by the sharpest fifth of the edges in it, for a mark's own edge may be soft.
 *
 * @param least the height an edge must have, as a share of the greatest light
 * @returns null where there are too few edges to tell
 */
export function edgeSpreadPx(
  sheet: LightPlane,
  { least }: Readonly<{ least: number }>,
): EdgeSpread | null {
  const near = sharpest(sheet, LONG, least)
  const small = Math.min(sheet.widthPx, sheet.heightPx) < 4 * COARSER_BY * LONG.reach
  if (near !== null || small) return near
  const far = sharpest(reduced(sheet, COARSER_BY), LONG, least)
  if (far === null) return sharpest(sheet, SHORT, least)
  return { photoPx: COARSER_BY * far.photoPx, middlePx: COARSER_BY * far.middlePx }
}

/** Spreads of the sheet's clean edges: what the photo itself spreads one, and half of them all. */
export type EdgeSpread = Readonly<{ photoPx: number; middlePx: number }>

/** A blur wider than the profiles is looked for in the picture made so much smaller. */
const COARSER_BY = 4

function sharpest(sheet: LightPlane, profile: Profile, least: number): EdgeSpread | null {
  const spreads = [...alongWays(sheet, profile, least)].sort((a, b) => a - b)
  if (spreads.length < 12) return null
  return {
    photoPx: spreads[Math.floor(spreads.length / 5)],
    middlePx: spreads[spreads.length >> 1],
  }
}

function* alongWays(
  { widthPx, heightPx, values }: LightPlane,
  profile: Profile,
  least: number,
): Generator<number> {
  const { reach } = profile
  const light = Math.max(1e-6, greatest(values))
  const ways = [
    { along: 1, across: widthPx, length: widthPx, lines: heightPx },
    { along: widthPx, across: 1, length: heightPx, lines: widthPx },
  ]
  for (const { along, across, length, lines } of ways) {
    let found = 0
    const every = Math.max(1, Math.floor(lines / 400))
    for (let line = every >> 1; line < lines && found < MOST / 2; line += every) {
      const from = line * across
      let at = reach
      while (at < length - reach - 1) {
        const middle = from + at * along
        const rise = Math.abs(values[middle + along] - values[middle - along])
        if (!(rise > 0.2 * least * light)) {
          at += 1
          continue
        }
        const spread = spreadOf(values, {
          middle,
          along,
          profile,
          least: least * light,
        })
        if (spread !== null) {
          found += 1
          yield spread
        }
        at += spread === null ? 1 : reach
      }
    }
  }
}

/** The second moment of an edge's slope about its middle, its sides being even; null for no clean edge. */
function spreadOf(
  values: Float32Array,
  {
    middle,
    along,
    profile: { reach, flank },
    least,
  }: Readonly<{ middle: number; along: number; profile: Profile; least: number }>,
): number | null {
  const at = (step: number): number => values[middle + step * along]
  let [low, high] = [0, 0]
  for (let step = 0; step < flank; step += 1) {
    low += at(-reach + step) / flank
    high += at(reach - step) / flank
  }
  const height = high - low
  if (!(Math.abs(height) > least)) return null
  for (let step = 0; step < flank; step += 1) {
    if (Math.abs(at(-reach + step) - low) > EVEN * Math.abs(height)) return null
    if (Math.abs(at(reach - step) - high) > EVEN * Math.abs(height)) return null
  }
  let [sum, first, second] = [0, 0, 0]
  for (let step = -reach; step < reach; step += 1) {
    const slope = (at(step + 1) - at(step)) / height
    if (slope < -0.1) return null
    sum += slope
    first += slope * (step + 0.5)
    second += slope * (step + 0.5) ** 2
  }
  const mean = first / sum
  if (Math.abs(mean) > 1) return null // its middle comes by in a moment
  const variance = second / sum - mean * mean
  return variance > 0 ? Math.sqrt(variance) : null
}

/** Of every seventh pixel: a height needs no more. */
function greatest(values: Float32Array): number {
  let most = 0
  for (let at = 0; at < values.length; at += 7) if (values[at] > most) most = values[at]
  return most
}
