import type { Grade } from '../calibration/belief/grades.ts'
import type { Mistake } from './mistakes.ts'

/** The steps of one exposure, in their order. */
export const STEP_NAMES = [
  'screen',
  'glass',
  'film',
  'lay',
  'lid',
  'vacuum',
  'set',
  'lamp',
  'read',
  'wet',
  'wash',
  'look',
  'wedge',
  'dry',
  'cool',
] as const
export type StepName = (typeof STEP_NAMES)[number]

/** What may be wrong at a step, and the one thing to do then. */
export type Cause = Readonly<{
  name: string
  says: string
  act: string
  /** The step it leads to; `next` goes on, `end` stops this exposure. */
  to: string
  /** How the screen came out, where this says so. */
  grade: Grade | null
}>

/** One step as it is shown: what to do, what to check, and what stops it. */
export type Step = Readonly<{
  /** One of STEP_NAMES, or the shop's own: `own-1`. */
  name: string
  title: string
  /** Two at most. */
  lines: readonly string[]
  /** What the shop knows of this very exposure that speaks against going on; sentences. */
  known?: readonly string[] | undefined
  /** What can hurt at this step. */
  caution: string | null
  /** The word on the act that ends it. */
  done: string
  clock: Clock | null
  asks: Asks | null
  /** Three at most. */
  causes: readonly Cause[]
  /** Mistakes that are caught here, while they still cost nothing. */
  catches: readonly Mistake[]
}>

export type Clock = Readonly<{
  /** Counts down from here; null: nobody knows, so it counts up and never rings. */
  sec: number | null
  /** The word on the act that starts it; null: it runs since the step `since` was done. */
  start: string | null
  since: string
}>

export type Asks =
  /** A count as it stands on the counter; `start` is what it should be. */
  | Readonly<{ what: 'set' | 'read'; start: number; low: number; high: number; unit: string }>
  /** What the vacuum gauge stands at; usual: where it stood before, null where nobody read it. */
  | Readonly<{ what: 'gauge'; usual: number | null }>
  /** A wedge's last solid step and its first clear one. */
  | Readonly<{ what: 'wedge'; steps: number }>

/** What the steps of one exposure need to know of it. */
export type RunFacts = Readonly<{
  /** The medium or the film. */
  subject: string
  /** As its tag says; null: a screen without one. */
  screen: string | null
  countsIn: 'light units' | 'seconds'
  /** On the unit's own counter; low and high: what should work. */
  dose: Readonly<{ value: number; low: number; high: number }>
  /** How long the lamp should be lit; null until somebody has timed it. */
  litSec: Readonly<{ low: number; high: number }> | null
  /** Where the unit's vacuum gauge usually stands; none where nobody read it. */
  gauge?: number | null
  /** Of the wedge on the margin. */
  wedgeSteps: number
  /** What is known of this screen, film and glass; none where nobody wrote anything down. */
  known?: KnownFacts
}>

/** What the shop knows of one screen, film and glass. */
export type KnownFacts = Readonly<{
  /** A clock's time: the coat is not dry before; null: it should be. */
  dryAt: string | null
  /** A day: the coat was good until then; null: it still is. */
  goodUntil: string | null
  /** The tag that the film's ticket names; null: this one, or none. */
  ticketScreen: string | null
  /** How many marks in the glass are written down. */
  glassMarks: number
  /** Passages of the film that its forecast rings as the palest. */
  weakMarks: number
  /** Where the film lies within the frame as it was planned, seen from above; null: no plan. */
  place: Readonly<{ leftMm: number; topMm: number }> | null
}>
