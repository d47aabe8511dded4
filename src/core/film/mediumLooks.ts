import { plainName } from '../units/plainName.ts'
import type { DensityPrior } from './media.ts'

/** What a film's marks look like in their bodies, away from their edges. */
export type MarksLook = Readonly<{
  /** Middle density above base. */
  density: number
  /** How far that can be off: a standard deviation. */
  densitySd: number
  /** Whether it is the densest that could be told. */
  isDenser: boolean
  /** How a body's density wanders from pixel to pixel, as a part of it: 0 even, 0.3 pencil's tooth. */
  grainShare: number
  /** From the palest tenth to the densest, as a part of the middle. */
  rangeShare: number
}>

/** A medium of a shop: its name, and how its weakest marks and its solids are known. */
export type KnownMedium = Readonly<{
  name: string
  weakest: DensityPrior
  solid: Readonly<{ low: number; high: number }> | null
}>

/** A medium and how likely it is, of all that were asked about. */
export type LikelyMedium = Readonly<{ name: string; chance: number }>

/** Body density with sd, grain and range as parts of it: typical, each within a factor. */
type Look = Readonly<{ density: number; sd: number; grainShare: number; rangeShare: number }>

/** @source medium-looks */
const LOOKS: ReadonlyMap<string, Look> = new Map(
  Object.entries({
    'soft pencil': { density: 0.95, sd: 0.25, grainShare: 0.16, rangeShare: 0.7 },
    'fine pigment pen': { density: 1.1, sd: 0.25, grainShare: 0.04, rangeShare: 0.2 },
    'graphite wash': { density: 0.55, sd: 0.25, grainShare: 0.05, rangeShare: 1 },
    'litho crayon': { density: 1.15, sd: 0.3, grainShare: 0.26, rangeShare: 0.9 },
    'drawing ink': { density: 1.5, sd: 0.3, grainShare: 0.04, rangeShare: 0.25 },
    'grease marker': { density: 1.3, sd: 0.3, grainShare: 0.09, rangeShare: 0.35 },
    'laser toner': { density: 1.9, sd: 0.35, grainShare: 0.03, rangeShare: 0.1 },
    'opaque paint': { density: 2, sd: 0.4, grainShare: 0.08, rangeShare: 0.35 },
    'inkjet film': { density: 2.75, sd: 0.25, grainShare: 0.02, rangeShare: 0.05 },
    'cut masking film': { density: 3.75, sd: 0.25, grainShare: 0.01, rangeShare: 0.03 },
  }),
)

/** Grain and range differ from hand to hand by such a factor, natural log; a floor under what a photo tells. */
const HANDS = { grain: 0.5, range: 0.6 }
const FLOOR = { grain: 0.03, range: 0.08 }
/** From its weakest mark to the body of a medium that only the shop knows (judged). */
const BODY_ABOVE_WEAKEST = 0.3
const BODY_SD = 0.4
/** A medium without a look of its own fits grain and range as one does that is one sd off. */
const UNKNOWN_LOOK = Math.exp(-1)

/**
 * Which media such marks are likely made with, the likeliest first. Each is as likely as any other
 * before the marks are looked at.
 *
 * @source medium-looks, media-priors
 * @limits judged, by the light a camera sees: red or brown films look paler than they are
 */
export function likelyMedia(
  seen: MarksLook,
  media: readonly KnownMedium[],
): readonly LikelyMedium[] {
  const weighed = media.map((medium) => ({ name: medium.name, fit: fitOf(seen, medium) }))
  const whole = weighed.reduce((sum, { fit }) => sum + fit, 0)
  return weighed
    .map(({ name, fit }) => ({ name, chance: whole > 0 ? fit / whole : 1 / media.length }))
    .sort((one, other) => other.chance - one.chance)
}

function fitOf(seen: MarksLook, { name, weakest, solid }: KnownMedium): number {
  const look = LOOKS.get(plainName(name))
  const own =
    solid === null
      ? { density: weakest.mean + BODY_ABOVE_WEAKEST, sd: BODY_SD }
      : { density: (solid.low + solid.high) / 2, sd: Math.max(0.15, (solid.high - solid.low) / 2) }
  const { density, sd } = look ?? own
  const dense = byDensity(seen, { density, sd })
  if (look === undefined) return dense * UNKNOWN_LOOK
  const grain = Math.log((seen.grainShare + FLOOR.grain) / (look.grainShare + FLOOR.grain))
  const range = Math.log((seen.rangeShare + FLOOR.range) / (look.rangeShare + FLOOR.range))
  // where all is denser than can be told, grain and range are those of the limit
  if (seen.isDenser) return dense * UNKNOWN_LOOK
  return dense * Math.exp(-0.5 * ((grain / HANDS.grain) ** 2 + (range / HANDS.range) ** 2))
}

function byDensity(
  seen: MarksLook,
  { density, sd }: Readonly<{ density: number; sd: number }>,
): number {
  const spread = Math.hypot(sd, seen.densitySd)
  const off = (seen.density - density) / spread
  return seen.isDenser ? above(off) : (0.25 / spread) * Math.exp(-0.5 * off * off)
}

/** Chance of more than so many standard deviations: Phi(-off), by a logistic curve within 0.01. */
function above(off: number): number {
  return 1 / (1 + Math.exp(1.702 * off))
}
