import { type ReactNode, useEffect, useState } from 'react'
import { litVerdict } from '../../core/runSheet/checks.ts'
import { clockStart, type RunState, secondsLeft } from '../../core/runSheet/progress.ts'
import type { Cause, Step } from '../../core/runSheet/step.ts'
import { AskedNumbers, entryFor, entryOff, gaugeOff } from './Asks.tsx'
import { BENCH_WORDS } from './benchWords.ts'
import { Clock } from './Clock.tsx'
import { countText, minutesText } from './clockText.ts'
import type { Device } from './device.ts'
import { FilmHeld } from './FilmHeld.tsx'
import { LampLimits } from './LampLimits.tsx'
import { Acts, NotRight } from './Panel.tsx'
import type { HeldFilm } from './useHeldFilm.ts'
import type { RunKept } from './useRun.ts'

export type StepViewProps = Readonly<{
  step: Step
  steps: readonly Step[]
  state: RunState
  nowMs: number
  device: Device
  kept: RunKept
  held: HeldFilm | null
  onWhy: () => void
  onLeave: () => void
}>

/** One step: what to do, its clock or number, what can hurt, and two acts. */
export function StepView(props: StepViewProps): ReactNode {
  const { step, steps, state, nowMs, device, kept, held, onWhy, onLeave } = props
  const [isWrong, setWrong] = useState(false)
  const [entered, setEntered] = useState(() => entryFor(step.asks))
  const waits = step.clock !== null && clockStart(step, state) === undefined && step.clock.start
  const off = entryOff(step.asks, entered)
  const toSay = off ?? gaugeOff(step.asks, entered)
  const lacks = step.asks?.what === 'wedge' && (entered.value === null || entered.second === null)
  const done = (): void => {
    if (waits !== false && waits !== null) kept.tell({ kind: 'clock', step: step.name })
    else if (off === null && !lacks) kept.tell({ kind: 'done', step: step.name, ...entered })
  }
  const wrong = (cause: Cause): void => {
    const value = cause.name === 'meant' ? entered.value : null
    kept.tell({ kind: 'not right', step: step.name, cause: cause.name, value })
    setWrong(false)
  }
  const before = steps[state.at - 1]
  const back =
    before === undefined ? null : (): void => kept.tell({ kind: 'back', step: before.name })
  // While causes stand there, a stray knock on the keyboard ends no step.
  const idle = isWrong ? { done: () => undefined, back: null } : { done, back }
  useKeys(device.keys, { ...idle, wrong: () => setWrong(!isWrong) })
  if (isWrong) {
    return (
      <main id="page" tabIndex={-1} className="bench-main">
        <NotRight
          step={step}
          onCause={wrong}
          onBack={back}
          onWhy={onWhy}
          onLeave={onLeave}
          onClose={() => setWrong(false)}
        />
      </main>
    )
  }
  return (
    <>
      <main id="page" tabIndex={-1} className="bench-main bench-step">
        <h1>{step.title}</h1>
        {[...step.lines, ...said(props)].map((line) => (
          <p key={line}>{line}</p>
        ))}
        {(step.known ?? []).map((says) => (
          <p key={says} className="bench-known">
            {says}
          </p>
        ))}
        {step.caution !== null && <p className="bench-caution">{step.caution}</p>}
        {step.name === 'lamp' && <LampLimits />}
        {held !== null && HELD_AT.has(step.name) && (
          <FilmHeld
            held={held}
            subject={kept.log?.run.about.subject ?? step.title}
            step={step.name}
          />
        )}
        {toSay !== null && (
          <p className="bench-caution" role="status">
            {toSay}
          </p>
        )}
        <Clock step={step} state={state} nowMs={nowMs} sound={device.sound} />
        {step.asks !== null && (
          <AskedNumbers asks={step.asks} entered={entered} onEnter={setEntered} />
        )}
        {kept.message !== null && <p role="status">{kept.message}</p>}
      </main>
      <Acts
        left={{ word: BENCH_WORDS.notRight, onPress: () => setWrong(true) }}
        main={{
          word: waits || (lacks ? BENCH_WORDS.bothFirst : actWord(step, entered.value)),
          onPress: done,
          not: off !== null || lacks,
        }}
      />
    </>
  )
}

/** Where the film is looked at beside the screen. */
const HELD_AT: ReadonlySet<string> = new Set(['film', 'wash', 'look'])

function actWord({ asks, done }: Step, value: number | null): string {
  return asks === null || asks.what === 'wedge' || value === null
    ? done
    : BENCH_WORDS.says(countText(value))
}

/** What came out besides: how long the lamp was lit, how long it still cools. */
function said({ step, steps, state, nowMs, kept }: StepViewProps): readonly string[] {
  const { litSec } = state
  if (step.name === 'read' && litSec !== null) {
    const reckonedSec = kept.log?.run.about.litSec ?? null
    const verdict = litVerdict(litSec, { reckonedSec })
    const sec = String(Math.round(litSec))
    return [verdict === null ? BENCH_WORDS.litFor(sec) : BENCH_WORDS.lit[verdict](sec)]
  }
  const cool = steps.find(({ clock }) => clock?.since === 'lamp' && clock.start === null)
  const left = cool === undefined ? null : secondsLeft(cool, { state, nowMs })
  const isBeside = step.name !== cool?.name && left !== null && left > 0 && step.name !== 'read'
  return isBeside ? [BENCH_WORDS.cools(minutesText(left))] : []
}

type Keys = Readonly<{ done: () => void; wrong: () => void; back: (() => void) | null }>

/** Space or Enter done, N not right, left back: with the back of a hand, where they are on. */
function useKeys(isOn: boolean, { done, wrong, back }: Keys): void {
  useEffect(() => {
    if (!isOn) return undefined
    const press = (event: KeyboardEvent): void => {
      if (event.ctrlKey || event.metaKey || event.altKey || event.repeat) return
      const onButton = event.target instanceof HTMLButtonElement
      if ((event.key === 'Enter' || event.key === ' ') && !onButton) done()
      else if (event.key === 'n' || event.key === 'N') wrong()
      else if (event.key === 'ArrowLeft') back?.()
      else return
      event.preventDefault()
    }
    addEventListener('keydown', press)
    return () => removeEventListener('keydown', press)
  })
}
