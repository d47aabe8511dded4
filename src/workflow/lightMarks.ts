import { type Density, density } from '../core/units/quantity.ts'
import type { ReadMarks } from './lightRecords.ts'

/** At most so much denser than the film's very weakest mark is what the dose goes by. */
const MOST_RELIEF = 0.25

/**
 * The effective density that sets a film's dose: that of its palest marks by length (the middle of
 * the palest ninth), but not more than 0.25 above its very weakest mark. One stroke among
 * thousands, paler than all, is told of and does not ruin the dose for the rest; one fine line in a
 * film of solids still counts.
 *
 * @source weakest-mark
 * @limits the relief is judged
 */
export function densityThatCounts({ weakest, along }: ReadMarks): Density {
  const least = weakest.effectiveDensity
  const [palest = least] = along
  const counts = Math.max(least, Math.min(palest, least + MOST_RELIEF))
  return density(Math.max(0, counts)) // paler than clear film is no mark: it counts as clear
}
