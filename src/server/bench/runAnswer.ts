import { type RunLayer, type RunList, type Run as RunTold, runAbout } from '../../api/bench.ts'
import { type RunEvent, runState } from '../../core/runSheet/progress.ts'
import type { Step } from '../../core/runSheet/step.ts'
import type { Run, RunEventRecord } from '../../store/runs.ts'
import type { LayerOnPapers } from '../../store/tickets.ts'
import type { Told } from '../http/route.ts'

type Whole = Readonly<{ run: Run; events: readonly RunEventRecord[] }>

/** A run as the contract has it. */
export function runTold(
  { run, events }: Whole,
  {
    now,
    isDemo,
    film,
    layer,
    notTaken,
  }: Readonly<{
    now: Date
    isDemo: boolean
    film: string | null
    layer: LayerOnPapers | null
    notTaken: string | null
  }>,
): Told<RunTold> {
  return {
    kind: 'run',
    id: run.id,
    demo: isDemo,
    about: runAbout.parse(run.about),
    steps: stepsIn(run),
    events: events.map(({ sentKey, kind, step, cause, value, second, happenedAt }) => ({
      key: sentKey,
      kind,
      step,
      cause,
      value,
      second,
      at: happenedAt.toISOString(),
    })),
    begunAt: run.begunAt.toISOString(),
    endedAt: run.endedAt?.toISOString() ?? null,
    now: now.toISOString(),
    film,
    layer: layerTold(layer),
    readings: { wedge: run.wedgeReadingId !== null, outcome: run.outcomeReadingId !== null },
    notTaken,
  }
}

/** One that goes on, and the step it is at. */
export function runInList({
  run,
  events,
  layer,
}: Whole & Readonly<{ layer: LayerOnPapers | null }>): Told<RunList>['runs'][number] {
  const { step } = runState(stepsIn(run), events.map(eventOf))
  const about = runAbout.parse(run.about)
  return { id: run.id, about, layer: layerTold(layer), step: step?.title ?? '' }
}

function layerTold(layer: LayerOnPapers | null): RunLayer {
  if (layer === null) return null
  const { shortName, ink, ticketId, code, name } = layer
  return { shortName, ink, ticket: { id: ticketId, name, code } }
}

/** Its steps as they stood when it began: we wrote them, so they are what they were. */
export function stepsIn({ steps }: Run): readonly Step[] {
  return steps as unknown as readonly Step[]
}

/** What happened, as the run sheet takes it. */
export function eventOf(event: Omit<RunEventRecord, 'id' | 'runId' | 'createdAt'>): RunEvent {
  const { sentKey, kind, step, cause, value, second, happenedAt } = event
  return {
    key: sentKey,
    kind,
    step,
    cause,
    value,
    second,
    atMs: happenedAt.getTime(),
  }
}
