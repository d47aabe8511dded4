import { ANSWERS, isFailure } from '../../core/failure.ts'
import type { WorkOrder, WorkWord } from './work.ts'

const MEMORY_EVERY_MS = 250

export type WorkSays<Early> = Readonly<{
  onProgress: (share: number, words: string) => void
  /** A part of the result that can be used before the rest is there. */
  onPicture: (result: Early) => void
}>

/**
 * What a process of its own does for a crew: one work after another, told as it goes. A file that
 * makes a decoder fall, eats memory or never ends takes this process with it and nothing else.
 *
 * @param doWork takes what its own crew sends
 * @param unsaid the sentence for a fault of ours
 */
export function servedWork<Early, Result>(
  doWork: (work: never, says: WorkSays<Early>) => Promise<Result>,
  { unsaid }: Readonly<{ unsaid: string }>,
): void {
  const say = (word: WorkWord<Early, Result>): void => {
    if (process.connected) process.send?.(word)
  }
  const obey = async ({ work }: WorkOrder): Promise<void> => {
    try {
      const result = await doWork(work as never, {
        onProgress: (share, words) => say({ kind: 'progress', share, words }),
        onPicture: (early) => say({ kind: 'picture', result: early }),
      })
      say({ kind: 'done', result })
    } catch (cause) {
      if (isOutOfMemory(cause)) process.abort()
      say({ kind: 'refused', error: refusalOf(cause, unsaid) })
    }
  }
  process.on('disconnect', () => process.exit(0)) // whoever asked is gone
  process.on('SIGINT', () => undefined) // a terminal's Ctrl+C is the server's business
  process.on('SIGTERM', () => process.exit(0))
  process.on('message', (order: WorkOrder) => void obey(order))
  setInterval(() => {
    say({ kind: 'memory', residentMb: process.memoryUsage.rss() / 2 ** 20 })
  }, MEMORY_EVERY_MS).unref()
  say({ kind: 'ready' })
}

/** What the system says when memory runs out: whoever listens looks for it. */
function isOutOfMemory(cause: unknown): boolean {
  return cause instanceof Error && 'code' in cause && cause.code === 'ERR_WORKER_OUT_OF_MEMORY'
}

function refusalOf(
  cause: unknown,
  unsaid: string,
): Extract<WorkWord<never, never>, { kind: 'refused' }>['error'] {
  if (isFailure(cause) && cause.kind in ANSWERS) {
    const { kind, message, field } = cause
    return { kind, message, ...(field === undefined ? {} : { field }) }
  }
  process.stderr.write(`${cause instanceof Error ? cause.stack : String(cause)}\n`)
  return { kind: 'world failed', message: unsaid }
}
