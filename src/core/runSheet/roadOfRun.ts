import type { StationName } from '../ticket/road.ts'
import { type RunEvent, type RunState, runState } from './progress.ts'
import type { Step } from './step.ts'

/** What an exposure tells of its layer's road. */
export type RoadTold = Readonly<{
  /** Of the event that says so, made on its device: told twice, it is one. */
  key: string
  kind: 'done' | 'back'
  station: StationName
  why: string | null
  atMs: number
}>

/** Where a layer goes back to when its exposure stops for this cause. */
const STOPPED: Readonly<Record<string, StationName>> = {
  'screen thin': 'screen',
  'film below': 'film',
}

/**
 * A layer's road by its exposure: the lamp has gone out and it is exposed; washed out well and dry,
 * its water is done; a ground that came off, a thin coat or a film made the wrong way sends it back.
 * Marks that stayed shut leave it at the water: the check decides.
 *
 * @param events in the order they came; what came twice counts once
 */
export function roadOfRun(
  steps: readonly Step[],
  events: readonly RunEvent[],
): readonly RoadTold[] {
  const told = [...new Map(events.map((event) => [event.key, event])).values()]
  const ordered = told.toSorted((a, b) => a.atMs - b.atMs)
  const lastStep = steps.some(({ name }) => name === 'dry') ? 'dry' : 'look'
  const road: RoadTold[] = []
  let before = runState(steps, [])
  for (const [index, event] of ordered.entries()) {
    const after = runState(steps, ordered.slice(0, index + 1))
    const found = toldBy(event, { before, after, steps, lastStep })
    if (found !== null) {
      const { key, atMs } = event
      road.push({ ...found, key: `${found.station}-${key}`.slice(0, LONGEST_KEY), atMs })
    }
    before = after
  }
  return road
}

const LONGEST_KEY = 64

type Found = Pick<RoadTold, 'kind' | 'station' | 'why'>
type Around = Readonly<{
  before: RunState
  after: RunState
  steps: readonly Step[]
  lastStep: string
}>

function toldBy(event: RunEvent, { before, after, steps, lastStep }: Around): Found | null {
  if (after === before || (after.at === before.at && after.stopped === before.stopped)) return null
  const cause = steps
    .find(({ name }) => name === event.step)
    ?.causes.find(({ name }) => name === event.cause)
  if (after.stopped !== null) {
    const station = STOPPED[`${event.step} ${event.cause ?? ''}`]
    return station === undefined ? null : { kind: 'back', station, why: cause?.says ?? null }
  }
  if (event.kind === 'not right') {
    const isOff = event.step === 'look' && after.grade === 'washed off'
    return isOff ? { kind: 'back', station: 'screen', why: cause?.says ?? null } : null
  }
  if (event.kind !== 'done') return null
  if (event.step === 'lamp') return { kind: 'done', station: 'light', why: null }
  if (event.step === lastStep && after.grade === 'good') {
    return { kind: 'done', station: 'water', why: null }
  }
  return null
}
