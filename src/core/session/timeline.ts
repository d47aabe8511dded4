/** What is taken of somebody's or of a machine's time: intervals in order, none overlapping. */
export type Timeline = { starts: number[]; ends: number[] }

export function newTimeline(): Timeline {
  return { starts: [], ends: [] }
}

/** Rounding of sums of minutes. */
const SLACK_MIN = 1e-9

/** The first moment from `from` on at which so many minutes are free. */
export function freeFrom(
  { starts, ends }: Timeline,
  { from, minutes }: Readonly<{ from: number; minutes: number }>,
): number {
  let at = from
  for (let index = firstAfter(ends, from); index < starts.length; index++) {
    if ((starts[index] ?? 0) >= at + minutes - SLACK_MIN) break
    at = Math.max(at, ends[index] ?? 0)
  }
  return at
}

/** Takes the time; it must be free. */
export function take(
  { starts, ends }: Timeline,
  { start, end }: Readonly<{ start: number; end: number }>,
): void {
  const index = firstAfter(ends, start)
  starts.splice(index, 0, start)
  ends.splice(index, 0, end)
}

/** The first interval that ends after a moment. */
function firstAfter(ends: readonly number[], moment: number): number {
  let [low, high] = [0, ends.length]
  while (low < high) {
    const middle = (low + high) >> 1
    if ((ends[middle] ?? 0) <= moment + SLACK_MIN) low = middle + 1
    else high = middle
  }
  return low
}
