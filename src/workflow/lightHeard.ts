import type { Circumstances, Marks } from '../core/calibration/belief/evidence.ts'
import { marksEntry } from '../core/calibration/belief/names.ts'
import { type Belief, type Entry, SHARED } from '../core/calibration/belief/state.ts'

/** Readings of the room's own that a dose rests on. */
export type Heard = Readonly<{
  /** Wedges and strips, of anything in this shop. */
  tests: number
  /** Screens of which somebody said how they came out. */
  outcomes: number
  /** Of these, how many told something about this medium or film. */
  ofTheseMarks: number
}>

/** Every reading touches the hold dose; what else it touched is counted there. */
export function readingsHeard(
  belief: Belief,
  { marks, ...circumstances }: Circumstances & Readonly<{ marks: readonly Marks[] }>,
): Heard {
  const all = belief.entries[SHARED.hold]?.heard
  const own = marks.map((each) => {
    const { kind, name } = marksEntry(each, circumstances)
    return belief.entries.find((entry) => entry.kind === kind && entry.name === name)?.heard
  })
  return {
    tests: times(all, ['wedge', 'strip']),
    outcomes: times(all, ['outcome']),
    ofTheseMarks: Math.max(0, ...own.map((heard) => times(heard, ['strip', 'outcome']))),
  }
}

function times(
  heard: Entry['heard'] | undefined,
  kinds: readonly (keyof Entry['heard'])[],
): number {
  return kinds.reduce((sum, kind) => sum + (heard?.[kind].times ?? 0), 0)
}
