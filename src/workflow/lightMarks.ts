import { mediumPrior } from '../core/calibration/belief/priors.ts'
import { type DensityPrior, FILM_TO_FILM_SD } from '../core/film/media.ts'
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

/**
 * That density as a belief about the marks, with its doubt. Of a film read from a photo the photo's
 * own doubt is weighed against what is known of the medium, as two normal beliefs are: read with a
 * wedge the film speaks for itself, read without one the medium has its say. The medium's prior
 * counts and not what the shop learned since: a film stays the same film to the belief.
 *
 * @param medium a name; null where nobody said what the marks were made with
 * @source two normal beliefs in one number: precisions add, from memory
 */
export function beliefInMarks(
  marks: ReadMarks,
  {
    photo,
    medium,
  }: Readonly<{ photo: Readonly<{ densitySd: Density }> | null; medium: string | null }>,
): DensityPrior {
  const seen = densityThatCounts(marks)
  if (photo === null) return { mean: seen, sd: FILM_TO_FILM_SD }
  const own = 1 / Math.max(LEAST_SD, photo.densitySd) ** 2
  const usual = medium === null ? null : mediumPrior(medium)
  const ofMedium = usual === null ? 0 : 1 / usual.sd ** 2
  const mean = (own * seen + ofMedium * (usual?.mean ?? 0)) / (own + ofMedium)
  const sd = Math.hypot(1 / Math.sqrt(own + ofMedium), FILM_TO_FILM_SD)
  return { mean: density(Math.max(0, mean)), sd: density(sd) }
}

/** Nothing is known better than this. */
const LEAST_SD = 0.005

/** The density below which a share of the length lies; each of `along` is the middle of its part. */
function reachedBeyond(along: readonly number[], share: number): number | null {
  const at = Math.max(0, Math.min(along.length - 1, share * along.length - 0.5))
  const low = along[Math.floor(at)]
  const high = along[Math.ceil(at)]
  return low === undefined || high === undefined ? null : low + (high - low) * (at % 1)
}
