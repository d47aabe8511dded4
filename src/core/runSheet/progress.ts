import type { Grade } from '../calibration/belief/grades.ts'
import type { Step } from './step.ts'

/** What happened at a step. Its key was made on the device: told twice, it is one. */
export type RunEvent = Readonly<{
  key: string
  kind: 'done' | 'clock' | 'not right' | 'back'
  step: string
  /** The name of the cause, of what was not right. */
  cause: string | null
  /** A count that was read, or a wedge's last solid step. */
  value: number | null
  /** A wedge's first clear step. */
  second: number | null
  atMs: number
}>

/** Where an exposure is: follows from its steps and what happened, and from nothing else. */
export type RunState = Readonly<{
  /** Index of the step it is at; all of them: it is through. */
  at: number
  step: Step | null
  /** It was stopped at a step, for a cause. */
  stopped: Readonly<{ step: string; cause: string }> | null
  /** When each clock that runs was started. */
  startedMs: ReadonlyMap<string, number>
  /** When each step was done, the last time. */
  doneMs: ReadonlyMap<string, number>
  setCount: number | null
  readCount: number | null
  litSec: number | null
  wedge: Readonly<{ lastSolidStep: number; firstClearStep: number | null }> | null
  grade: Grade | null
}>

/** The state after all that happened, in the order of its clock; what came twice counts once. */
export function runState(steps: readonly Step[], events: readonly RunEvent[]): RunState {
  const told = [...new Map(events.map((event) => [event.key, event])).values()]
  const start: RunState = { ...NOTHING, step: steps[0] ?? null }
  return told
    .toSorted((a, b) => a.atMs - b.atMs)
    .reduce((state, event) => next(state, { event, steps }), start)
}

/** @returns seconds left on a step's clock, below 0 when it is over; null: it does not run down */
export function secondsLeft(
  { clock, name }: Step,
  { state, nowMs }: Readonly<{ state: RunState; nowMs: number }>,
): number | null {
  const since = clock === null ? undefined : clockStart({ clock, name }, state)
  if (clock === null || clock.sec === null || since === undefined) return null
  return clock.sec - (nowMs - since) / 1000
}

/** When a step's clock was started, by its own act or because another step was done. */
export function clockStart(
  { clock, name }: Pick<Step, 'clock' | 'name'>,
  { startedMs, doneMs }: RunState,
): number | undefined {
  if (clock === null) return undefined
  return clock.start === null ? doneMs.get(clock.since) : startedMs.get(name)
}

const NOTHING: RunState = {
  at: 0,
  step: null,
  stopped: null,
  startedMs: new Map(),
  doneMs: new Map(),
  setCount: null,
  readCount: null,
  litSec: null,
  wedge: null,
  grade: null,
}

type Next = Readonly<{ event: RunEvent; steps: readonly Step[] }>

function next(state: RunState, { event, steps }: Next): RunState {
  const index = steps.findIndex(({ name }) => name === event.step)
  const step = steps[index]
  // What was already gone past, on another device perhaps, is not gone through again.
  if (step === undefined || state.stopped !== null || (event.kind !== 'back' && index < state.at))
    return state
  switch (event.kind) {
    case 'clock':
      return { ...state, startedMs: new Map(state.startedMs).set(step.name, event.atMs) }
    case 'back':
      return index < state.at ? movedTo(state, { index, steps }) : state
    case 'done':
      return movedTo(taken(state, { event, step }), { index: index + 1, steps })
    case 'not right':
      return notRight(state, { event, steps, index })
  }
}

function notRight(
  state: RunState,
  { event, steps, index }: Next & Readonly<{ index: number }>,
): RunState {
  const step = steps[index]
  const cause = step?.causes.find(({ name }) => name === event.cause)
  if (step === undefined || cause === undefined) return state
  if (cause.to === 'end') return { ...state, stopped: { step: step.name, cause: cause.name } }
  const graded = cause.grade === null ? state : { ...state, grade: cause.grade }
  if (cause.to === 'next') {
    const keeps = step.asks?.what === 'set' ? { ...graded, setCount: event.value } : graded
    return movedTo(passed(keeps, { event, step }), { index: index + 1, steps })
  }
  const to = steps.findIndex(({ name }) => name === cause.to)
  return movedTo(graded, { index: to === -1 ? index : to, steps })
}

/** What a step that is done tells. */
function taken(
  state: RunState,
  { event, step }: Readonly<{ event: RunEvent; step: Step }>,
): RunState {
  const told = passed(state, { event, step })
  switch (step.asks?.what) {
    case 'set':
      return { ...told, setCount: event.value }
    case 'read':
      return { ...told, readCount: event.value }
    case 'wedge':
      return event.value === null
        ? told
        : { ...told, wedge: { lastSolidStep: event.value, firstClearStep: event.second } }
    case 'gauge':
      return told
    case undefined:
      return step.name === 'look' ? { ...told, grade: 'good' } : told
  }
}

function passed(
  state: RunState,
  { event, step }: Readonly<{ event: RunEvent; step: Step }>,
): RunState {
  const doneMs = new Map(state.doneMs).set(step.name, event.atMs)
  const lit = step.name === 'lamp' ? state.startedMs.get('lamp') : undefined
  const litSec = lit === undefined ? state.litSec : (event.atMs - lit) / 1000
  return { ...state, doneMs, litSec }
}

/** Going back, the clocks of all that is done again are wound up anew. */
function movedTo(
  state: RunState,
  { index, steps }: Readonly<{ index: number; steps: readonly Step[] }>,
): RunState {
  const forgotten = new Set(steps.slice(index).map(({ name }) => name))
  const startedMs = new Map([...state.startedMs].filter(([name]) => !forgotten.has(name)))
  return { ...state, at: index, step: steps[index] ?? null, startedMs }
}
