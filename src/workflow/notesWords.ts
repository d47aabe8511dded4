import type { Grading } from '../core/calibration/belief/grades.ts'

/** `good`; `soft ground, marks filling`. */
export function gradingWords(grading: Grading): string {
  if ('grade' in grading) return grading.grade
  if (grading.ground === 'washed off') return 'washed off'
  return `${grading.ground} ground, marks ${grading.marks}`
}
