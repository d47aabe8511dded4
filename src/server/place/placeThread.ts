import { parentPort, workerData } from 'node:worker_threads'
import { placeFilms } from '../../core/placement/place.ts'
import type { PlacementProblem } from '../../core/placement/problem.ts'

// A search among many films takes up to some seconds: the server answers meanwhile.

parentPort?.postMessage(placeFilms(workerData as PlacementProblem), [])
