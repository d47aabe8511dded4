import type { RunState } from '../../core/runSheet/progress.ts'
import type { Database } from '../../store/database/database.ts'
import { addScreenEvent } from '../../store/screenEvents.ts'
import { type Screen, screenOf } from '../../store/screens.ts'

/**
 * What a run at the bench makes of its screen: exposed once the lamp has gone out, to be reclaimed
 * once it is seen that the stencil does not hold or does not open.
 *
 * @returns whether the screen's state changed
 */
export async function screenAfterRun(
  database: Database,
  {
    screenId,
    runId,
    state,
    personId,
    now,
  }: Readonly<{
    screenId: string | null
    runId: string
    state: RunState
    personId: string | null
    now: Date
  }>,
): Promise<boolean> {
  const is = stateAfter(state)
  if (screenId === null || is === null) return false
  const screen = await screenOf(database, screenId)
  if (!FOLLOWS[is].includes(screen.state)) return false
  const says = is === 'exposed' ? 'at the bench' : `came out ${state.grade ?? ''}`
  const of = { screenId, kind: 'state', state: is, says, personId, happenedAt: now } as const
  const event = { ...of, sentKey: `run-${runId}-${is === 'exposed' ? 'lit' : 'failed'}` }
  const after = await addScreenEvent(database, { event, changes: { state: is } }, { at: now })
  return after.state !== screen.state
}

/** From which states a run may bring a screen there; a torn or lost one stays what it is. */
const FOLLOWS: Readonly<Record<'exposed' | 'to reclaim', readonly Screen['state'][]>> = {
  exposed: ['coated', 'exposed'],
  'to reclaim': ['coated', 'exposed'],
}

function stateAfter({ doneMs, grade }: RunState): 'exposed' | 'to reclaim' | null {
  if (grade === 'washed off' || grade === 'filled') return 'to reclaim'
  return doneMs.has('lamp') ? 'exposed' : null
}
