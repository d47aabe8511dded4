import { type ReactNode, useEffect, useState } from 'react'
import type { RunLayer } from '../../api/bench.ts'
import { type RunState, runState } from '../../core/runSheet/progress.ts'
import { Following } from '../clocks/Following.tsx'
import { clockText } from '../figures.ts'
import { ROUTES, ticketRoute, useWay } from '../router.tsx'
import { BENCH_WORDS, saidOf } from './benchWords.ts'
import { useNow } from './Clock.tsx'
import type { Device } from './device.ts'
import { Acts, Leaving } from './Panel.tsx'
import { eventsOf, type RunLog } from './runLog.ts'
import { StepView } from './StepView.tsx'
import { wakeSound } from './sound.ts'
import { useHeldFilm } from './useHeldFilm.ts'
import { type RunKept, useRun } from './useRun.ts'

/** One exposure: the step it is at, or how it ended. */
export function RunPage({ id, device }: Readonly<{ id: string; device: Device }>): ReactNode {
  const kept = useRun(id)
  useAwake()
  if (kept.log === null) {
    return (
      <main id="page" tabIndex={-1} className="bench-main">
        <h1>{BENCH_WORDS.title}</h1>
        <p>{kept.cutSince === null ? BENCH_WORDS.fetching : BENCH_WORDS.noRun}</p>
        {kept.message !== null && <p>{kept.message}</p>}
      </main>
    )
  }
  return <Known kept={kept} log={kept.log} device={device} />
}

function Known({
  kept,
  log,
  device,
}: Readonly<{ kept: RunKept; log: RunLog; device: Device }>): ReactNode {
  const { go } = useWay()
  const [leaving, setLeaving] = useState<string | null>(null)
  const nowMs = useNow(log.aheadMs)
  const { steps, about } = log.run
  const state = runState(steps, eventsOf(log))
  const held = useHeldFilm(log.run.film ?? null)
  const { step, stopped } = state
  return (
    <>
      <header className="bench-head">
        <p>
          {saidOf(log.run)}, {about.screen ?? about.unit}
        </p>
        {step !== null && <p>{BENCH_WORDS.stepOf(state.at + 1, steps.length)}</p>}
        {log.run.demo && <p className="bench-tape">DEMO SHOP</p>}
      </header>
      {kept.cutSince !== null && log.own.length > 0 && (
        <p className="bench-cut" role="status">
          {BENCH_WORDS.unsent(log.own.length, clockText(kept.cutSince))}
        </p>
      )}
      <Following atBench={{ run: log.run.id }} />
      {leaving !== null ? (
        <Leaving onYes={() => go(leaving)} onNo={() => setLeaving(null)} />
      ) : step !== null && stopped === null ? (
        <StepView
          key={`${step.name} ${state.doneMs.get(step.name) ?? ''}`}
          {...{ step, state, nowMs, device, steps, held }}
          kept={kept}
          onWhy={() => setLeaving(troubleOf(log.run.id))}
          onLeave={() => setLeaving(ROUTES.light)}
        />
      ) : (
        <Ended log={log} state={state} onLeave={setLeaving} />
      )}
    </>
  )
}

/** The page of failures, with this exposure. */
function troubleOf(run: string): string {
  return `${ROUTES.trouble}?run=${encodeURIComponent(run)}`
}

/** The page of photos of screens, with this film. */
function checkOf(film: string | null): string {
  return film === null ? ROUTES.check : `${ROUTES.check}?film=${encodeURIComponent(film)}`
}

/** Back to the print that this layer is of. */
function ticketAct(layer: RunLayer, onLeave: (to: string) => void) {
  if (layer === null) return null
  const { id, code } = layer.ticket
  return { word: BENCH_WORDS.ticket(code), onPress: () => onLeave(ticketRoute(id)) }
}

function Ended({
  log: { run },
  state: { stopped, grade },
  onLeave,
}: Readonly<{ log: RunLog; state: RunState; onLeave: (to: string) => void }>): ReactNode {
  const stoppedAt = run.steps.find(({ name }) => name === stopped?.step)
  const cause = stoppedAt?.causes.find(({ name }) => name === stopped?.cause)
  const { wedge, outcome } = run.readings
  const light = { word: BENCH_WORDS.light, onPress: () => onLeave(ROUTES.light) }
  const check = { word: BENCH_WORDS.check, onPress: () => onLeave(checkOf(run.film)) }
  const ticket = ticketAct(run.layer ?? null, onLeave)
  return (
    <>
      <main id="page" tabIndex={-1} className="bench-main">
        <h1>{stopped === null ? BENCH_WORDS.through : BENCH_WORDS.stopped}</h1>
        {cause !== undefined && (
          <p>
            {cause.says} {cause.act}.
          </p>
        )}
        {wedge && <p>{BENCH_WORDS.wedgeTaken}</p>}
        {outcome && <p>{BENCH_WORDS.outcomeTaken}</p>}
        {!wedge && !outcome && <p>{BENCH_WORDS.nothingTaken}</p>}
        {run.notTaken !== null && <p>{run.notTaken}</p>}
        {ticket !== null && (
          <p>
            <button type="button" className="bench-other" onClick={light.onPress}>
              {light.word}
            </button>
          </p>
        )}
        {grade !== null && grade !== 'good' && (
          <p>
            <button
              type="button"
              className="bench-other"
              onClick={() => onLeave(troubleOf(run.id))}
            >
              {BENCH_WORDS.why}
            </button>
          </p>
        )}
      </main>
      <Acts left={stopped === null ? check : null} main={ticket ?? light} />
    </>
  )
}

/** The screen stays lit while somebody is at work here, where the browser can do that. */
function useAwake(): void {
  useEffect(() => {
    let lock: WakeLockSentinel | null = null
    const wake = (): void => {
      if (!('wakeLock' in navigator) || document.visibilityState !== 'visible') return
      navigator.wakeLock.request('screen').then(
        (got) => {
          lock = got
        },
        () => null, // the device would rather sleep
      )
    }
    wake()
    document.addEventListener('visibilitychange', wake)
    addEventListener('pointerdown', wakeSound)
    addEventListener('keydown', wakeSound)
    return () => {
      document.removeEventListener('visibilitychange', wake)
      removeEventListener('pointerdown', wakeSound)
      removeEventListener('keydown', wakeSound)
      void lock?.release().catch(() => null)
    }
  }, [])
}
