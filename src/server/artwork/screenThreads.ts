import { availableParallelism, loadavg } from 'node:os'
import { fileURLToPath } from 'node:url'
import { Worker } from 'node:worker_threads'
import { Failure } from '../../core/failure.ts'
import { type FileSpool, openSpool } from '../../decode/spool.ts'
import {
  type Elsewhere,
  plateCount,
  type ScreenedPart,
} from '../../workflow/makeFilms/makeFilms.ts'
import type { PartAsked, PartSaid } from './screenThread.ts'

/** The compiled thread, from the sources and from what is compiled of them alike. */
const THREAD = fileURLToPath(
  new URL('../../../dist/server/artwork/screenThread.js', import.meta.url),
)

/** Each decodes the artwork for itself and takes some 60 MB. */
const MOST_THREADS = 4

/**
 * Threads that screen parts of an artwork's films, as many with this one as there are cores.
 *
 * @param threads beside this one; left out: one for each core that has nothing to do, for on a busy
 *   computer they would only cost more
 */
export function screenThreads(
  path: string,
  { threads = idleThreads() }: Readonly<{ threads?: number }> = {},
): Elsewhere {
  const workers = new Set<Worker>()
  const opened: FileSpool[] = []
  return {
    threads,
    screen: async ({ plan, size, rows }, onShare) => {
      const spools: FileSpool[] = []
      for (let plate = 0; plate < plateCount(plan); plate++) {
        const spool = await openSpool()
        spools.push(spool)
        opened.push(spool)
      }
      const descriptors = spools.map(({ descriptor }) => descriptor)
      const asked: PartAsked = { path, plan, size, rows, descriptors }
      const worker = new Worker(THREAD, { workerData: asked })
      workers.add(worker)
      return doneBy(worker, { spools, onShare })
    },
    close: async () => {
      for (const worker of workers) await worker.terminate()
      for (const spool of opened) await spool.close()
    },
  }
}

function idleThreads(): number {
  const cores = availableParallelism()
  const idle = Math.round(cores - (loadavg()[0] ?? 0))
  return Math.max(0, Math.min(MOST_THREADS, cores, idle) - 1)
}

function doneBy(
  worker: Worker,
  { spools, onShare }: Readonly<{ spools: readonly FileSpool[]; onShare: (share: number) => void }>,
): Promise<ScreenedPart> {
  return new Promise((resolve, reject) => {
    worker.on('error', reject)
    worker.on('exit', (code) => reject(new Error(`a screening thread ended with ${code}`)))
    worker.on('message', (said: PartSaid) => {
      switch (said.kind) {
        case 'share':
          onShare(said.share)
          return
        case 'failed':
          reject(failureOf(said.failure))
          return
        case 'done':
          spools.forEach((spool, plate) => spool.written(said.bytes[plate] ?? 0))
          resolve({ counts: said.counts, spools })
      }
    })
  })
}

function failureOf({
  kind,
  message,
  field,
}: Extract<PartSaid, { kind: 'failed' }>['failure']): Failure {
  return new Failure(kind, message, field === undefined ? {} : { field })
}
