import { Failure } from '../../core/failure.ts'

/** So many wrong tries are free; each one after doubles the wait. Judged. */
const FREE_TRIES = 5
const FIRST_WAIT_MS = 1000
const FORGOTTEN_MS = 15 * 60_000
const MOST_KEPT = 500

/** Counts wrong tries and makes the next ones wait. */
export type SlowDown = Readonly<{
  /** @throws Failure 'conflict' with the seconds to wait */
  expectTurn: (whose: string, at: Date) => void
  wrong: (whose: string, at: Date) => void
  right: (whose: string) => void
}>

/** @param longestSec the longest wait: short where one person's tries would hold up a class */
export function slowDown({ longestSec }: Readonly<{ longestSec: number }>): SlowDown {
  const tries = new Map<string, Readonly<{ count: number; last: number }>>()
  const known = (whose: string, at: Date) => {
    const there = tries.get(whose)
    return there === undefined || at.getTime() - there.last > FORGOTTEN_MS ? null : there
  }
  return {
    expectTurn: (whose, at) => {
      const there = known(whose, at)
      const over = (there?.count ?? 0) - FREE_TRIES
      if (there === null || over < 0) return
      const waitMs = Math.min(longestSec * 1000, FIRST_WAIT_MS * 2 ** Math.min(over, 20))
      const leftMs = there.last + waitMs - at.getTime()
      if (leftMs <= 0) return
      const message = `Too many tries went wrong: wait ${Math.ceil(leftMs / 1000)} seconds, then try again.`
      throw new Failure('conflict', message)
    },
    wrong: (whose, at) => {
      if (tries.size >= MOST_KEPT) tries.clear()
      tries.set(whose, { count: (known(whose, at)?.count ?? 0) + 1, last: at.getTime() })
    },
    right: (whose) => void tries.delete(whose),
  }
}
