import type { DayTaken } from '../core/calibration/belief/jump.ts'
import type { DayForm } from './calibrationProblem.ts'
import { dayShown } from './readCalibrationDays.ts'

/** Something that is not as it was. */
export type CalibrationDrift = Readonly<{ day: string | number; kind: 'jump'; reason: string }>

/** What is more likely than not is spoken of. */
const LIKELY = 0.5

/** Days on which the ground suddenly wanted another dose. */
export function driftFound(days: readonly DayTaken[], form: DayForm): readonly CalibrationDrift[] {
  return days.flatMap(({ day, jump, jumpChance }) => {
    if (day === null || jumpChance < LIKELY) return []
    const times = (10 ** jump).toFixed(jump > 1 ? 0 : 1)
    const reason = `The ground suddenly wanted about ${times} times the light.`
    return [{ day: dayShown(day, form), kind: 'jump' as const, reason }]
  })
}
