import { type ReactNode, useEffect, useRef, useState } from 'react'
import { knocks } from '../../core/runSheet/checks.ts'
import { clockStart, type RunState, secondsLeft } from '../../core/runSheet/progress.ts'
import type { Step } from '../../core/runSheet/step.ts'
import { BENCH_WORDS } from './benchWords.ts'
import { minutesText } from './clockText.ts'
import { knock } from './sound.ts'
import { Threads } from './Threads.tsx'

const TICK_MS = 200
/** Said aloud at these. */
const SPOKEN_SEC = [60, 30, 10, 0]

/** The time by the shop's clock, as it goes on. */
export function useNow(aheadMs: number): number {
  const [nowMs, setNow] = useState(() => Date.now() + aheadMs)
  useEffect(() => {
    const tick = (): void => setNow(Date.now() + aheadMs)
    tick()
    const timer = setInterval(tick, TICK_MS)
    return () => clearInterval(timer)
  }, [aheadMs])
  return nowMs
}

/** A step's clock, counting down, or up where nobody knows how far. It is heard at its end. */
export function Clock({
  step,
  state,
  nowMs,
  sound,
}: Readonly<{ step: Step; state: RunState; nowMs: number; sound: boolean }>): ReactNode {
  const left = secondsLeft(step, { state, nowMs })
  const before = useRef(left)
  const spoken = spokenAt(left)
  useEffect(() => {
    if (left === null) return
    const due = knocks({ fromSec: before.current ?? left, toSec: left })
    before.current = left
    if (due !== 0 && sound) knock(due)
  }, [left, sound])
  const since = clockStart(step, state)
  if (step.clock === null) return null
  if (since === undefined) {
    return step.clock.sec === null ? null : (
      <p className="bench-clock bench-clock-still">{minutesText(step.clock.sec)}</p>
    )
  }
  const past = left !== null && left <= 0
  return (
    <>
      <p className="bench-clock" role="timer">
        {left === null
          ? minutesText(Math.floor((nowMs - since) / 1000))
          : minutesText(past ? 0 : left)}
        {past && (
          <span className="bench-over">{BENCH_WORDS.over(minutesText(Math.floor(-left)))}</span>
        )}
      </p>
      {left !== null && step.clock.sec !== null && <Threads sec={step.clock.sec} left={left} />}
      <p className="unseen" aria-live="assertive">
        {spoken !== null && BENCH_WORDS.left(spoken)}
      </p>
    </>
  )
}

/** The last of the seconds that are said aloud. */
function spokenAt(left: number | null): number | null {
  if (left === null) return null
  const passed = SPOKEN_SEC.filter((sec) => left <= sec)
  return passed.length === 0 ? null : Math.min(...passed)
}
