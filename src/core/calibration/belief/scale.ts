import { collapsed } from './gaussian.ts'
import { UNKNOWN_SCALE } from './priors.ts'
import { type Kept, type Replay, replay } from './replay.ts'
import type { ShopFacts } from './state.ts'

/** A replay that allowed for counters of another scale. */
export type ScaledReplay = Replay & Readonly<{ scaleChance: number }>

/**
 * The belief rebuilt from all evidence where nobody said whether the counters count light units.
 *
 * Two shops go through the evidence: one whose units are as units are, and one, 0.05 likely
 * beforehand, whose counters have a scale that nobody knows. In the end they are weighed by how
 * well each foresaw all of it and made one, by moments. What agrees with the usual scale leaves the
 * second a share too small to matter; a counter that shows ten times as much is found by
 * whatever evidence agrees with itself.
 *
 * @returns the days as the likelier of the two saw them; scaleChance of the second, after all
 * @throws RangeError where a number of the evidence cannot be
 * @source counter-scale, moment-matching
 */
export function replayOfAnyScale(
  evidence: readonly Kept[],
  { shop, until }: Readonly<{ shop: ShopFacts; until?: number | undefined }>,
): ScaledReplay {
  const limit = until === undefined ? {} : { until }
  const usual = replay(evidence, { shop, ...limit })
  const units = new Set(evidence.map(({ unit = '' }) => unit))
  const unitScaleSd = new Map<string, number>([...units].map((unit) => [unit, UNKNOWN_SCALE.sd]))
  for (const [unit, sd] of shop.unitScaleSd ?? []) unitScaleSd.set(unit, sd)
  const other = replay(evidence, { shop: { ...shop, unitScaleSd }, ...limit })
  const before = Math.log(UNKNOWN_SCALE.chance / (1 - UNKNOWN_SCALE.chance))
  const share = 1 / (1 + Math.exp(foreseen(usual) - foreseen(other) - before))
  const gaussian = collapsed([
    { share: 1 - share, gaussian: usual.belief.gaussian },
    { share, gaussian: other.belief.gaussian },
  ])
  const { days } = share > 0.5 ? other : usual
  return { belief: { ...usual.belief, gaussian }, days, scaleChance: share }
}

function foreseen({ days }: Replay): number {
  return days.reduce((sum, { logChance }) => sum + logChance, 0)
}
