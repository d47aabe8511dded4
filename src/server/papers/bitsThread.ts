import { parentPort, workerData } from 'node:worker_threads'
import { pageRaster } from '../../decode/pageRaster.ts'
import { writeBilevelTiff } from '../../formats/bilevelTiff.ts'
import type { FilmPage } from '../../formats/filmPage.ts'
import { inMemory } from './inMemory.ts'

// A page becomes bits in a thread of its own: for a second or two the server answers meanwhile.

export type BitsAsked = Readonly<{ page: FilmPage; resolutionDpi: number }>

const { page, resolutionDpi } = workerData as BitsAsked
const bytes = await inMemory((sink) =>
  writeBilevelTiff(pageRaster(page, { resolutionDpi }), { sink }),
)
parentPort?.postMessage(bytes, [bytes.buffer])
