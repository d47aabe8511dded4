import { groundEstimate } from '../core/calibration/belief/estimates.ts'
import { type Belief, SHARED } from '../core/calibration/belief/state.ts'
import type { GroundSaid } from '../core/calibration/drift/witness.ts'
import type { Doubtful } from '../core/units/quantity.ts'
import type { LightExposure } from './lightRecords.ts'
import { circumstancesOf, countsOf } from './lightSetup.ts'

/** What screens are exposed with: which one, and under which film, is left open. */
type SetUp = Omit<LightExposure, 'subject'>
type OnDay = Readonly<{ day: number; value: number; low: number; high: number }>
/** The belief as it stood in the evening of a day, and the set-up as it was then. */
export type SetUpEvening = Readonly<{ day: number; belief: Belief; setUp: SetUp }>

/** Normal deviate that leaves 5 % on either side. */
const NINETY_PERCENT = 1.645

/** The dose that makes a set-up's ground sound, as its unit's counter shows it. */
export function groundOn(
  belief: Belief,
  setUp: SetUp,
  { day }: Readonly<{ day: number }>,
): Doubtful {
  const counts = countsOf(setUp.unit)
  const { soundDoseLu } = groundEstimate(belief, {
    ...circumstancesOf(setUp, { day }),
    screen: undefined,
  })
  return {
    ...soundDoseLu,
    value: counts * soundDoseLu.value,
    low: counts * soundDoseLu.low,
    high: counts * soundDoseLu.high,
  }
}

/** How that dose moved: at most so many evenings, the newest among them. */
export function groundLine(
  evenings: readonly SetUpEvening[],
  { most }: Readonly<{ most: number }>,
): readonly OnDay[] {
  const every = Math.max(1, Math.ceil(evenings.length / most))
  const shown = evenings.filter((_, at) => (evenings.length - 1 - at) % every === 0)
  return shown.map(({ day, belief, setUp }) => {
    // The lamp had the hours that were known then: none has been lit, and none was changed, since.
    const lampHours = belief.lampHours.get(setUp.unit.id) ?? null
    const then = { ...setUp, unit: { ...setUp.unit, lampHours } }
    const { value, low, high } = groundOn(belief, then, { day })
    return { day, value, low, high }
  })
}

/** What one reading says of the ground by itself, as doses that make the ground sound, on the counter. */
export function groundThread(
  belief: Belief,
  { value, sd }: GroundSaid,
  { counts }: Readonly<{ counts: number }>,
): Omit<OnDay, 'day'> {
  const rise = belief.gaussian.mean[SHARED.sound] ?? 0
  const at = (deviate: number): number => counts * 10 ** (value + rise + deviate * sd)
  return { value: at(0), low: at(-NINETY_PERCENT), high: at(NINETY_PERCENT) }
}
