import type { ReactNode } from 'react'
import { benchRoute, Link, screenRoute } from '../router.tsx'
import { SecondAct } from '../signs/Button.tsx'
import type { RunningClock } from './clocksKept.ts'
import { CLOCKS_WORDS } from './clocksWords.ts'
import './clocks.css'
import { endClock } from './clockStore.ts'
import { leftOf } from './useClocks.ts'

/** One clock: what runs, how long still, and the one act that ends it or leads to it. */
export function ClockLine({
  clock,
  nowMs,
  withName = true,
}: Readonly<{ clock: RunningClock; nowMs: number; withName?: boolean }>): ReactNode {
  const { key, title, about, person, mine, screen, run, sec } = clock
  const left = leftOf(clock, nowMs)
  const isOver = left <= 0
  return (
    <div className="clock-line" data-over={isOver}>
      <p>
        {withName && `${CLOCKS_WORDS.name(title, about)} `}
        <strong role="timer" className="clock-time">
          {isOver ? CLOCKS_WORDS.over(-left) : CLOCKS_WORDS.left(left)}
        </strong>
        {person !== null && !mine && ` ${CLOCKS_WORDS.by(person)}`}
        {isOver && screen !== null && ` ${CLOCKS_WORDS.rinse}`}
      </p>
      {screen !== null && (
        <SecondAct onPress={() => void endClock(key, screen, sec)}>
          {CLOCKS_WORDS.rinsed(screen)}
        </SecondAct>
      )}
      {withName && screen !== null && (
        <Link to={screenRoute(screen)} className="second-act">
          <span>{CLOCKS_WORDS.toScreen(screen)}</span>
        </Link>
      )}
      {run !== null && (
        <Link to={benchRoute(run)} className="second-act">
          <span>{CLOCKS_WORDS.go}</span>
        </Link>
      )}
    </div>
  )
}
