import type { Question } from '../core/calibration/belief/question.ts'
import type { Kept } from '../core/calibration/belief/replay.ts'
import type { Density } from '../core/units/quantity.ts'

/** How the days of a problem are written; null where there are none. */
export type DayForm = 'date' | 'number' | null

/** One shop's evidence, and what is asked of it. */
export type CalibrationProblem = Readonly<{
  evidence: readonly Kept[]
  ask: readonly Question[]
  /** Base of evidence and questions that name none. */
  usualBaseDensity: Density
  days: DayForm
  /** What can be taken and still is odd, in sentences. */
  warnings: readonly string[]
}>

/** What a file holds: one problem, or a list of them. */
export type CalibrationFile = Readonly<{
  isList: boolean
  problems: readonly CalibrationProblem[]
}>

/** A file of many shops; what is longer is no file of readings. */
export const CALIBRATION_BYTES_AT_MOST = 64_000_000
