import type { DayStation } from '../../api/day.ts'
import type { Thing } from '../../store/things.ts'

type Job = 'coating' | 'drying' | 'light' | 'water' | 'drying again'

/**
 * A class's way from the trough to the press, as long as the shop has not said how it is there. Minutes:
 * common practice, no source (a coat dries an hour without fans; washout with its soak and look).
 */
export const USUAL_WAY: readonly Readonly<{ job: Job } & DayStation>[] = [
  { job: 'coating', name: 'coating', machines: 1, minutes: 8, people: true },
  { job: 'drying', name: 'drying', machines: 8, minutes: 60, people: false },
  { job: 'light', name: 'light', machines: 1, minutes: 9, people: true },
  { job: 'water', name: 'water', machines: 1, minutes: 14, people: true },
  { job: 'drying again', name: 'drying again', machines: 4, minutes: 25, people: false },
]

/** The way with the shop's own machines and minutes where it has told them. */
export function wayOf(own: readonly Pick<Thing, 'facts'>[]): DayStation[] {
  return USUAL_WAY.map(({ job, ...usual }) => {
    const told = own
      .map(({ facts }) => facts as Readonly<Record<string, unknown>>)
      .filter((facts) => facts['job'] === job)
    if (told.length === 0) return usual
    const counts = told.map((facts) => Number(facts['machines']))
    const minutes = told.map((facts) => Number(facts['minutes']))
    return {
      ...usual,
      machines: counts.reduce((sum, count) => sum + count, 0),
      minutes: Math.max(...minutes),
    }
  })
}
