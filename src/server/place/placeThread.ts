import { parentPort, workerData } from 'node:worker_threads'
import { placeOnGlass } from '../../core/placement/place.ts'
import type { PlacementProblem } from '../../core/placement/problem.ts'

// A search among many films takes up to some seconds: the server answers meanwhile.

/** What it is handed. */
export type PlaceTask = Readonly<{ problem: PlacementProblem }>

const { problem } = workerData as PlaceTask
parentPort?.postMessage(placeOnGlass(problem), [])
