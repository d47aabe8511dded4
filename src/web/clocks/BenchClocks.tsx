import type { ReactNode } from 'react'
import { CLOCKS_WORDS } from './clocksWords.ts'
import { leftOf, useClocks, useRinging } from './useClocks.ts'

/** Clocks that run elsewhere, beside the step that one is at: read and heard, ended elsewhere. */
export function BenchClocks({ run }: Readonly<{ run: string | null }>): ReactNode {
  const { clocks, nowMs } = useClocks()
  const others = clocks.filter((clock) => clock.mine && (clock.run === null || clock.run !== run))
  useRinging(others, nowMs)
  const [first] = others
  if (first === undefined) return null
  const left = leftOf(first, nowMs)
  const says = left <= 0 ? CLOCKS_WORDS.over(-left) : CLOCKS_WORDS.left(left)
  return (
    <p className="bench-cut" role="timer">
      {`${CLOCKS_WORDS.name(first.title, first.about)}: ${says}`}
    </p>
  )
}
