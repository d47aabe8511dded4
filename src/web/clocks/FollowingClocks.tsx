import type { ReactNode } from 'react'
import { ClockLine } from './ClockLine.tsx'
import { CLOCKS_WORDS } from './clocksWords.ts'
import { leftOf, useClocks, useRinging } from './useClocks.ts'

/** Clocks that somebody started, on whichever page and device they then are. */
export function FollowingClocks(): ReactNode {
  const { clocks, nowMs } = useClocks()
  const mine = clocks.filter((clock) => clock.mine)
  useRinging(mine, nowMs)
  if (mine.length === 0) return null
  const over = mine.find((clock) => leftOf(clock, nowMs) <= 0)
  return (
    <aside className="following" aria-label={CLOCKS_WORDS.label}>
      {mine.map((clock) => (
        <ClockLine key={clock.key} clock={clock} nowMs={nowMs} />
      ))}
      <p className="unseen" aria-live="assertive">
        {over !== undefined && CLOCKS_WORDS.spoken(CLOCKS_WORDS.name(over.title, over.about))}
      </p>
    </aside>
  )
}
