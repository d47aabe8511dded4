import { ANSWERS, isFailure } from '../../core/failure.ts'
import { doFilmWork } from './filmWork.ts'
import { handsHere } from './hands.ts'
import type { WorkOrder, WorkWord } from './work.ts'

// A film is read in a process of its own: this file. A file that makes a decoder fall, eats memory
// or never ends takes this process with it and nothing else.

const MEMORY_EVERY_MS = 250
/** They live as long as this process: what they keep in memory is used for film after film. */
const HANDS = handsHere()

const say = (word: WorkWord): void => {
  if (process.connected) process.send?.(word)
}

process.on('disconnect', () => process.exit(0)) // whoever asked is gone
process.on('SIGINT', () => undefined) // a terminal's Ctrl+C is the server's business
process.on('SIGTERM', () => process.exit(0))
process.on('message', (order: WorkOrder) => void obey(order))

setInterval(() => {
  say({ kind: 'memory', residentMb: process.memoryUsage.rss() / 2 ** 20 })
}, MEMORY_EVERY_MS).unref()

say({ kind: 'ready' })

async function obey({ work }: WorkOrder): Promise<void> {
  try {
    const result = await doFilmWork(work, {
      hands: HANDS,
      onProgress: (share, words) => say({ kind: 'progress', share, words }),
      onPicture: (result) => say({ kind: 'picture', result }),
    })
    say({ kind: 'done', result })
  } catch (cause) {
    if (isOutOfMemory(cause)) process.abort()
    say({ kind: 'refused', error: refusalOf(cause) })
  }
}

/** What the system says when memory runs out: whoever listens looks for it. */
function isOutOfMemory(cause: unknown): boolean {
  return cause instanceof Error && 'code' in cause && cause.code === 'ERR_WORKER_OUT_OF_MEMORY'
}

function refusalOf(cause: unknown): Extract<WorkWord, { kind: 'refused' }>['error'] {
  if (isFailure(cause) && cause.kind in ANSWERS) {
    const { kind, message, field } = cause
    return { kind, message, ...(field === undefined ? {} : { field }) }
  }
  process.stderr.write(`${cause instanceof Error ? cause.stack : String(cause)}\n`)
  const message =
    'Reading this film met a fault in Yellowroom: save it in another form, like an 8-bit grey PNG, and bring it again.'
  return { kind: 'world failed', message }
}
