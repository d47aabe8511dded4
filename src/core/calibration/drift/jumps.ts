import type { DayTaken } from '../belief/jump.ts'

/** A day on which the ground suddenly wanted another dose. */
export type JumpFound = Readonly<{
  day: number
  chance: number
  /** Of 0.15; above 0: more light is wanted. */
  steps: number
}>

/** What a day of a replay says of a sudden change; its belief is not asked. */
export type JumpNote = Pick<DayTaken, 'day' | 'jumpChance' | 'jump'>

/** Log10 of dose in one step of the usual wedge. */
export const STEP = 0.15
/** More likely than not. */
const LIKELY = 0.5

/**
 * The days of a replay whose readings speak for a sudden change since the day before.
 *
 * @source jump-hypothesis
 */
export function jumpsFound(days: readonly JumpNote[]): readonly JumpFound[] {
  return days.flatMap(({ day, jumpChance, jump }) =>
    day === null || jumpChance < LIKELY ? [] : [{ day, chance: jumpChance, steps: jump / STEP }],
  )
}
