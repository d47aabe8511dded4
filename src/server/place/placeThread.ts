import { parentPort, workerData } from 'node:worker_threads'
import { placeUpright } from '../../core/placement/place.ts'
import type { PlacementProblem } from '../../core/placement/problem.ts'

// A search among many films takes up to some seconds: the server answers meanwhile.

parentPort?.postMessage(placeUpright(workerData as PlacementProblem), [])
