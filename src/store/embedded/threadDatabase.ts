import type { Worker } from 'node:worker_threads'
import { Failure } from '../../core/failure.ts'
import type { Answer, Message, Step } from './openDatabase.ts'
import { type ReadyThread, readyThread } from './readyThread.ts'
import { refusalOf, revived, whyStopped } from './refusals.ts'
import { type Question, receivedFailure, type Said, type ThreadBegin } from './thread.ts'

/** Parse, Bind, Describe, Execute, Close: the database says nothing to them before Sync. */
const PARTS = new Set([...'PBDEC'].map((letter) => letter.charCodeAt(0)))

type Waiting = Readonly<{ resolve: (answer: Said) => void; reject: (cause: Failure) => void }>
type Ask = Question extends infer Kind
  ? Kind extends unknown
    ? Omit<Kind, 'number'>
    : never
  : never

/**
 * The database in its thread. When the disk fails under it, it stops for good, as it must: what it
 * still has in memory cannot be trusted. `revive` then starts it anew from what the disk holds.
 */
export class ThreadDatabase {
  readonly waitReady: Promise<void> = Promise.resolve()
  /** Times that the disk was flushed, as of the last answer. */
  syncs = 0

  readonly #folder: string
  readonly #onStep: (step: Step) => void
  #worker: Worker | null = null
  #waiting = new Map<number, Waiting>()
  #asked = 0
  #stopped: Failure | null = null
  readonly #kept: Uint8Array[] = []

  private constructor(folder: string, onStep: (step: Step) => void) {
    this.#folder = folder
    this.#onStep = onStep
  }

  /**
   * @param thread one that was begun before
   * @throws Failure when the database cannot be opened; see `openDatabase`
   */
  static async start(
    folder: string,
    {
      onStep = () => undefined,
      thread = readyThread(),
    }: Readonly<{
      onStep?: ((step: Step) => void) | undefined
      thread?: ReadyThread | undefined
    }> = {},
  ): Promise<ThreadDatabase> {
    const database = new ThreadDatabase(folder, onStep)
    await database.#begin(thread)
    return database
  }

  /**
   * What the driver calls for every message it would have sent to a server. The four that make up a
   * question are kept until the fifth asks for the answer: one way there and back in place of five.
   */
  async execProtocolStream(message: Uint8Array): Promise<readonly Message[]> {
    if (PARTS.has(message[0] ?? 0)) {
      this.#kept.push(message)
      return []
    }
    const whole = Buffer.concat([...this.#kept.splice(0), message])
    if (this.#stopped !== null) return refusalOf(this.#stopped)
    try {
      const { messages, syncs } = (await this.#ask({ kind: 'execute', message: whole })) as Answer
      // Stopped meanwhile: it broke off in the middle, and the driver must hear a whole answer.
      if (this.#stopped !== null) return refusalOf(this.#stopped)
      this.syncs = syncs
      return messages.map(revived)
    } catch (cause) {
      if (!(cause instanceof Failure)) throw cause
      await this.#stop(cause)
      return refusalOf(cause)
    }
  }

  /** Starts the database again if it had to stop. @throws Failure when it still cannot be opened */
  async revive(): Promise<void> {
    if (this.#stopped === null) return
    await this.#begin(readyThread())
    this.#stopped = null
  }

  async close(): Promise<void> {
    const worker = this.#worker
    if (worker === null) return
    await this.#ask({ kind: 'close' })
    this.#worker = null
    await worker.terminate()
  }

  async #begin(worker: Worker): Promise<void> {
    worker.ref()
    try {
      await new Promise<void>((resolve, reject) => {
        worker.on('message', (said: Said) => this.#hear(said, { resolve, reject }))
        worker.on('error', (cause) => reject(gone(cause)))
        worker.on('exit', () => reject(gone(null)))
        const begin: ThreadBegin = { folder: this.#folder }
        worker.postMessage(begin, [])
      })
    } catch (cause) {
      await worker.terminate()
      throw cause
    }
    this.#worker = worker
    worker.on('exit', () => this.#lose(worker))
  }

  #hear(
    said: Said,
    begun: Readonly<{ resolve: () => void; reject: (cause: Failure) => void }>,
  ): void {
    switch (said.kind) {
      case 'step':
        this.#onStep(said.step)
        break
      case 'open':
        begun.resolve()
        break
      case 'refused':
        begun.reject(receivedFailure(said.failure))
        break
      case 'panic':
        void this.#stop(whyStopped(said.reason, this.#folder))
        break
      case 'answer':
      case 'broken': {
        const waiting = this.#waiting.get(said.number)
        this.#waiting.delete(said.number)
        if (said.kind === 'answer') waiting?.resolve(said)
        else waiting?.reject(receivedFailure(said.failure))
        break
      }
    }
  }

  async #ask(ask: Ask): Promise<unknown> {
    const worker = this.#worker
    if (worker === null) throw gone(null)
    const number = ++this.#asked
    const said = await new Promise<Said>((resolve, reject) => {
      this.#waiting.set(number, { resolve, reject })
      worker.postMessage({ ...ask, number }, [])
    })
    return said.kind === 'answer' ? said.answer : null
  }

  /** Its thread spins or waits for ever once it had to stop: it is ended. */
  async #stop(why: Failure): Promise<void> {
    this.#stopped = why
    const worker = this.#worker
    this.#worker = null
    await worker?.terminate()
    this.#rejectAll(why)
  }

  #lose(worker: Worker): void {
    if (this.#worker !== worker) return
    this.#worker = null
    this.#stopped = gone(null)
    this.#rejectAll(this.#stopped)
  }

  #rejectAll(why: Failure): void {
    for (const { reject } of this.#waiting.values()) reject(why)
    this.#waiting.clear()
  }
}

function gone(cause: unknown): Failure {
  const message = 'The database stopped unexpectedly: try again; what was saved before is safe.'
  return new Failure('world failed', message, { cause })
}
