import { Failure } from '../../core/failure.ts'

/** So many wrong tries are free; each one after doubles the wait. Judged. */
const FREE_TRIES = 5
const FIRST_WAIT_MS = 1000
const FORGOTTEN_MS = 15 * 60_000
const MOST_KEPT = 500
/** A class that signs in together; more at one door are no people. Judged. */
const MOST_IN_LINE = 100

/** Counts wrong tries and makes the next ones wait. */
export type SlowDown = Readonly<{
  /**
   * One try of somebody's after another, so that many sent at once are as slow as one by one; null
   * counts as wrong.
   *
   * @throws Failure 'conflict' with the seconds to wait, or when too many wait already
   */
  tried: <Result>(
    whose: string,
    attempt: () => Promise<Result | null>,
    of: Readonly<{ now: () => Date }>,
  ) => Promise<Result | null>
}>

type Wrong = Readonly<{ count: number; lastMs: number }>
type Line = { waiting: number; last: Promise<unknown> }

/** @param longestSec the longest wait: short where one person's tries would hold up a class */
export function slowDown({ longestSec }: Readonly<{ longestSec: number }>): SlowDown {
  const wrongs = new Map<string, Wrong>()
  const lines = new Map<string, Line>()
  const known = (whose: string, nowMs: number): Wrong | null => {
    const there = wrongs.get(whose)
    return there === undefined || nowMs - there.lastMs > FORGOTTEN_MS ? null : there
  }
  const expectTurn = (whose: string, nowMs: number): void => {
    const there = known(whose, nowMs)
    const over = (there?.count ?? 0) - FREE_TRIES
    if (there === null || over < 0) return
    const waitMs = Math.min(longestSec * 1000, FIRST_WAIT_MS * 2 ** Math.min(over, 20))
    const leftMs = there.lastMs + waitMs - nowMs
    if (leftMs > 0) throw tooMany(Math.ceil(leftMs / 1000))
  }
  const wrong = (whose: string, nowMs: number): void => {
    const count = (known(whose, nowMs)?.count ?? 0) + 1
    if (!wrongs.has(whose) && wrongs.size >= MOST_KEPT) forgetOne(wrongs)
    wrongs.set(whose, { count, lastMs: nowMs })
  }
  return {
    tried: async (whose, attempt, { now }) => {
      const line = lines.get(whose) ?? { waiting: 0, last: Promise.resolve() }
      if (line.waiting >= MOST_IN_LINE) throw tooMany(longestSec)
      line.waiting += 1
      lines.set(whose, line)
      const mine = line.last.then(async () => {
        expectTurn(whose, now().getTime())
        const result = await attempt()
        if (result === null) wrong(whose, now().getTime())
        else wrongs.delete(whose)
        return result
      })
      line.last = mine.catch(() => undefined)
      try {
        return await mine
      } finally {
        line.waiting -= 1
        if (line.waiting === 0) lines.delete(whose)
      }
    },
  }
}

/** Of those with fewest wrong tries the oldest: invented names do not wash away a real one. */
function forgetOne(wrongs: Map<string, Wrong>): void {
  let [least, fewest] = ['', Number.POSITIVE_INFINITY]
  for (const [whose, { count }] of wrongs) if (count < fewest) [least, fewest] = [whose, count]
  wrongs.delete(least)
}

function tooMany(sec: number): Failure {
  const message = `Too many tries went wrong: wait ${sec} second${sec === 1 ? '' : 's'}, then try again.`
  return new Failure('conflict', message)
}
