import { once } from 'node:events'
import { fileURLToPath } from 'node:url'
import { Worker } from 'node:worker_threads'
import { type Placement, placeOnGlass } from '../../core/placement/place.ts'
import type { PlacementProblem } from '../../core/placement/problem.ts'
import type { PlaceTask } from './placeThread.ts'

/** The compiled thread, from the sources and from what is compiled of them alike. */
const THREAD = fileURLToPath(new URL('../../../dist/server/place/placeThread.js', import.meta.url))

/** So few are laid in less time than a thread takes to begin. */
const QUICK = { films: 1, keepOut: 4 }

/** Where films lie best; a search that may take long is done in a thread of its own. */
export async function bestPlace(problem: PlacementProblem): Promise<Placement> {
  const { films, keepOut, light } = problem
  const isQuick = films.length <= QUICK.films && keepOut.length <= QUICK.keepOut
  if (isQuick && light === undefined) return placeOnGlass(problem)
  const task: PlaceTask = { problem }
  const thread = new Worker(THREAD, { workerData: task })
  try {
    const [placement] = (await once(thread, 'message')) as [Placement]
    return placement
  } finally {
    await thread.terminate()
  }
}
