import { type Density, density } from '../core/units/quantity.ts'
import type { ReadMarks } from './lightRecords.ts'

/** Strokes fade at their ends: so much of all marks' length may be paler. */
const FADES_SHARE = 0.1
/** At most so much denser than the film's very weakest mark is what the dose goes by … */
const MOST_RELIEF = 0.25

/**
 * The effective density that sets a film's dose: that which nine tenths of its marks' length reach,
 * as the weakest mark's own is that which nine tenths of its axis reach. One stroke among
 * thousands, paler than all, is told of and does not ruin the dose for the rest. But one fine line
 * in a film of solids counts: above the very weakest mark it is at most 0.25 and the film's own
 * spread from pale to middling, which is wide where tones fade and nothing where all is solid.
 *
 * @source weakest-mark
 * @limits the relief is judged
 */
export function densityThatCounts({ weakest, along }: ReadMarks): Density {
  const least = weakest.effectiveDensity
  const pale = reachedBeyond(along, FADES_SHARE) ?? least
  const middling = reachedBeyond(along, 0.5) ?? pale
  const counts = Math.max(least, Math.min(pale, least + MOST_RELIEF + (middling - pale)))
  return density(Math.max(0, counts)) // paler than clear film is no mark: it counts as clear
}

/** The density below which a share of the length lies; each of `along` is the middle of its part. */
function reachedBeyond(along: readonly number[], share: number): number | null {
  const at = Math.max(0, Math.min(along.length - 1, share * along.length - 0.5))
  const low = along[Math.floor(at)]
  const high = along[Math.ceil(at)]
  return low === undefined || high === undefined ? null : low + (high - low) * (at % 1)
}
