import type { Run, RunEventTold } from '../../api/bench.ts'
import type { RunEvent } from '../../core/runSheet/progress.ts'
import { aheadOf, type Came } from '../shopClock.ts'

/** What a device keeps of an exposure: what the shop knows, and what it has not been told yet. */
export type RunLog = Readonly<{
  run: Run
  /** By this device's clock; told or not told, until the shop says it has them. */
  own: readonly RunEventTold[]
  /** The shop's clock less this device's. */
  aheadMs: number
}>

/** Something happened here. */
export function withEvent(log: RunLog, event: RunEventTold): RunLog {
  return { ...log, own: [...log.own, event] }
}

/** The shop answered: what it has taken down is its own from now on. */
export function withAnswer(
  log: RunLog | null,
  { run, came }: Readonly<{ run: Run; came: Came }>,
): RunLog {
  const taken = new Set(run.events.map(({ key }) => key))
  const own = (log?.own ?? []).filter(({ key }) => !taken.has(key))
  const aheadMs = aheadOf(Date.parse(run.now), { came, before: log?.aheadMs ?? null })
  return { run, own, aheadMs }
}

/** All that happened, by the shop's clock. */
export function eventsOf({ run, own, aheadMs }: RunLog): readonly RunEvent[] {
  const event = ({ at, ...rest }: RunEventTold, ahead: number): RunEvent => ({
    ...rest,
    atMs: Date.parse(at) + ahead,
  })
  return [...run.events.map((each) => event(each, 0)), ...own.map((each) => event(each, aheadMs))]
}

/** A log as it was kept; null for what is none. */
export function logFrom(text: string | null): RunLog | null {
  if (text === null) return null
  try {
    const log = JSON.parse(text) as Partial<RunLog>
    const isLog = Array.isArray(log.own) && log.run?.kind === 'run' && Number.isFinite(log.aheadMs)
    return isLog ? (log as RunLog) : null
  } catch {
    return null // half of it was kept
  }
}
