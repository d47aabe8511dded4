/** How the closed ground came out. */
export type GroundGrade = 'washed off' | 'soft' | 'sound'
/** How the marks came out, where the ground is still there. */
export type MarksGrade = 'open' | 'filling' | 'filled'
/** Both in one word. */
export type Grade = 'washed off' | 'soft' | 'good' | 'filling' | 'filled'

export const GRADES: readonly Grade[] = ['washed off', 'soft', 'good', 'filling', 'filled']
export const GROUND_GRADES: readonly GroundGrade[] = ['washed off', 'soft', 'sound']
export const MARKS_GRADES: readonly MarksGrade[] = ['open', 'filling', 'filled']

/** Two ticks; where the ground is gone the marks went too, and a tick for them says nothing. */
export type Ticks =
  | Readonly<{ ground: 'washed off'; marks?: MarksGrade | undefined }>
  | Readonly<{ ground: 'soft' | 'sound'; marks: MarksGrade }>
/** One exposed patch by one word, or by two ticks. */
export type Grading = Readonly<{ grade: Grade }> | Ticks

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
  return grading.ground === 'washed off' ? PARTS['washed off'] : grading
}

/** @throws RangeError for a word that is none of the form's, or a tick that is missing */
export function expectGrading(grading: Grading): void {
  if ('grade' in grading) return expectWord('grade', grading.grade, GRADES)
  expectWord('ground', grading.ground, GROUND_GRADES)
  if (grading.ground === 'washed off' && grading.marks === undefined) return
  expectWord('marks', grading.marks, MARKS_GRADES)
}

function expectWord(name: string, word: unknown, words: readonly string[]): void {
  if (words.some((known) => known === word)) return
  throw new RangeError(`${name}: expected ${words.join(', ')}, got ${String(word)}`)
}

/** How many answers the form had to choose from: five words, or seven pairs of ticks. */
export function answersOf(grading: Grading): number {
  return 'grade' in grading ? GRADES.length : 1 + 2 * MARKS_GRADES.length
}
