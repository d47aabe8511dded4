/** How the closed ground came out. */
export type GroundGrade = 'washed off' | 'soft' | 'sound'
/** How the marks came out, where the ground is still there. */
export type MarksGrade = 'open' | 'filling' | 'filled'
/** Both in one word. */
export type Grade = 'washed off' | 'soft' | 'good' | 'filling' | 'filled'

export const GRADES: readonly Grade[] = ['washed off', 'soft', 'good', 'filling', 'filled']
export const MARKS_GRADES: readonly MarksGrade[] = ['open', 'filling', 'filled']

/** One exposed patch by one word, or by two ticks; where the ground is gone the marks went too. */
export type Grading =
  | Readonly<{ grade: Grade }>
  | Readonly<{ ground: 'washed off' }>
  | Readonly<{ ground: 'soft' | 'sound'; marks: MarksGrade }>

/** What a grading says of the ground (`held`: soft or sound) and of the marks (`any`: nothing). */
export type GradingParts = Readonly<{ ground: GroundGrade | 'held'; marks: MarksGrade | 'any' }>

/**
 * The five words are not one scale. Precedence: washed off, then filled and filling whatever the
 * ground, then soft; good is sound and open.
 *
 * @source grade-likelihood
 */
const PARTS: Readonly<Record<Grade, GradingParts>> = {
  'washed off': { ground: 'washed off', marks: 'any' },
  soft: { ground: 'soft', marks: 'open' },
  good: { ground: 'sound', marks: 'open' },
  filling: { ground: 'held', marks: 'filling' },
  filled: { ground: 'held', marks: 'filled' },
}

/** A grading taken apart: one word by the precedence, two ticks as they stand. */
export function gradingParts(grading: Grading): GradingParts {
  if ('grade' in grading) return PARTS[grading.grade]
  return 'marks' in grading ? grading : PARTS['washed off']
}

/** How many answers the form had to choose from: five words, or seven pairs of ticks. */
export function answersOf(grading: Grading): number {
  return 'grade' in grading ? GRADES.length : 1 + 2 * MARKS_GRADES.length
}
