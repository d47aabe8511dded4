import { availableParallelism } from 'node:os'
import { Worker } from 'node:worker_threads'
import type { PictureHands } from '../../workflow/filmForecast.ts'
import type { MarkHands } from '../../workflow/filmForecastFindings.ts'
import type { MarkTask } from '../../workflow/filmMarksPart.ts'
import type { PictureTask } from '../../workflow/filmPicturePart.ts'
import type { Hand } from '../../workflow/inTurns.ts'

/** Threads that work on parts of one film at a time. */
export type Hands = Readonly<{
  picture: PictureHands
  marks: MarkHands
  end: () => Promise<void>
}>

/** Some of a film's rows: workflow's FilmPart. */
export type Part = Parameters<ReturnType<PictureHands>[number]>[0]

/** What is said to a thread. A part is worked on as the last task said. */
export type HandOrder =
  | Readonly<{ kind: 'picture'; task: PictureTask }>
  | Readonly<{ kind: 'marks'; task: MarkTask }>
  | Readonly<{ kind: 'part'; number: number; part: Part }>

export type Numbered = Readonly<{ part: Part; number: number }>

/** What it says. */
export type HandWord = Readonly<{ number: number }> &
  (Readonly<{ kind: 'made'; result: object }> | Readonly<{ kind: 'failed'; cause: unknown }>)

/** The compiled thread, from the sources and from what is compiled of them alike. */
const THREAD = new URL('../../../dist/server/jobs/handThread.js', import.meta.url)
/** More would take more memory than one film may. */
const MOST_HANDS = 2

/** As many hands as this computer's cores can use; null where that is one. */
export function handsHere(): Hands | null {
  const count = Math.min(MOST_HANDS, availableParallelism())
  return count > 1 ? hands(count) : null
}

export function hands(count: number): Hands {
  const threads = Array.from({ length: count }, () => {
    const thread = new Worker(THREAD)
    thread.unref()
    return thread
  })
  let number = 0
  const told = <Result>(order: HandOrder): readonly Hand<Part, Result>[] =>
    threads.map((thread) => {
      thread.postMessage(order, [])
      return (part) => madeBy<Result>(thread, { part, number: ++number })
    })
  return {
    picture: (task) => told({ kind: 'picture', task }),
    marks: (task) => told({ kind: 'marks', task }),
    end: async () => {
      await Promise.all(threads.map((thread) => thread.terminate()))
    },
  }
}

/** The part is the thread's from now on. */
function madeBy<Result>(thread: Worker, { part, number }: Numbered): Promise<Result> {
  return new Promise((resolve, reject) => {
    const hear = (word: HandWord): void => {
      if (word.number !== number) return // of a film that was given up
      end()
      if (word.kind === 'made') resolve(word.result as Result)
      else reject(word.cause)
    }
    const fall = (cause: Error): void => {
      end()
      reject(cause)
    }
    const end = (): void => void thread.off('message', hear).off('error', fall)
    thread.on('message', hear).on('error', fall)
    const order: HandOrder = { kind: 'part', number, part }
    thread.postMessage(order, buffersOf(order))
  })
}

/** Memory of all arrays in a record of plain data: handed over, it need not be copied. */
export function buffersOf(value: unknown): ArrayBuffer[] {
  const found = new Set<ArrayBuffer>()
  const look = (part: unknown): void => {
    if (ArrayBuffer.isView(part)) found.add(part.buffer as ArrayBuffer)
    else if (typeof part === 'object' && part !== null) Object.values(part).forEach(look)
  }
  look(value)
  return [...found]
}
