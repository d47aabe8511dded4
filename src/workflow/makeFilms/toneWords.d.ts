import type { FilmPlan } from '../../core/separation/plan.ts'
/** What becomes of tones that a fabric cannot hold, a sentence an ink; none where all are printed. */
export declare function toneWords({ inks, halftone }: FilmPlan): readonly string[]
