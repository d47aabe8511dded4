import { type ChildProcess, fork } from 'node:child_process'
import { mkdir, rm } from 'node:fs/promises'
import { constants, setPriority } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { Failure } from '../../core/failure.ts'
import { failureFrom } from '../http/refusals.ts'
import type { WorkOrder, WorkWord } from './work.ts'

/** What a crew is hired for. */
export type Trade = Readonly<{
  /** Names its folders. */
  name: string
  /** The compiled process, from the house's folder. */
  process: string
  /** What to do about a file whose reading broke off, or took too much. */
  brokeOff: string
  tookTooMuch: string
}>

/** Films are read. */
export const FILM_TRADE: Trade = {
  name: 'work',
  process: 'dist/server/jobs/workProcess.js',
  brokeOff: 'save it in another form, like an 8-bit grey PNG, and bring it again',
  tookTooMuch: 'save it with fewer pixels or as a plain PNG or TIFF, and bring it again',
}

export type CrewLimits = Readonly<{
  /** Files that are worked on at a time. */
  atOnce: number
  /** Memory that one may take, all of it. */
  residentMb: number
  /** One that says nothing for so long, or is not done after so long, is given up. */
  silentSec: number
  wholeSec: number
}>

export const CREW_LIMITS: CrewLimits = {
  atOnce: 2,
  residentMb: 1024,
  silentSec: 120,
  wholeSec: 1800,
}

export type WorkOptions<Early> = Readonly<{
  /** The file's name, for the sentence when it comes to a bad end. */
  name: string
  onProgress: (share: number, words: string) => void
  onPicture: (result: Early) => void
  signal: AbortSignal
}>

/** Those who read files, each in a process of its own that lives on for the next one. */
export type Crew<Work, Early, Result> = Readonly<{
  atOnce: number
  /** A file is on its way: whoever will read it gets ready. */
  prepare: () => void
  /** @throws Failure in one sentence; the signal's reason when it was stopped */
  work: (work: Work, options: WorkOptions<Early>) => Promise<Result>
  /** Ends all processes; work that is under way fails. */
  end: () => Promise<void>
}>

type Worker = Readonly<{ child: ChildProcess; folder: string; lastWords: () => string }>

/** A little less than others, so that questions are answered while a file is worked on. */
const NICE = 5
const OLD_SPACE_MB = 512
const REST_MS = 30_000

/** @param folder where the processes keep what they unpack; emptied by whoever opens the shop */
export function crewIn<Work, Early, Result>(
  folder: string,
  { trade, limits = CREW_LIMITS }: Readonly<{ trade: Trade; limits?: CrewLimits | undefined }>,
): Crew<Work, Early, Result> {
  const idle: Worker[] = []
  const busy = new Set<Worker>()
  let ended = false
  let hired = 0
  let coming: Promise<void> | null = null

  const dismiss = async (worker: Worker): Promise<void> => {
    worker.child.kill('SIGKILL')
    await rm(worker.folder, { recursive: true, force: true, maxRetries: 5 })
  }
  const leave = (worker: Worker): void => {
    const at = idle.indexOf(worker)
    if (at >= 0) void dismiss(...(idle.splice(at, 1) as [Worker]))
  }
  const hire = async (): Promise<Worker> => {
    hired += 1
    const own = join(folder, `${trade.name}-${process.pid}-${hired}`)
    await mkdir(own, { recursive: true })
    const worker = newWorker(own, trade)
    worker.child.once('exit', () => leave(worker)) // one that fell over at rest reads nothing more
    return worker
  }
  /** Waits for another file, but not for long: memory is others' too. */
  const rest = (worker: Worker): void => {
    idle.push(worker)
    setTimeout(() => leave(worker), REST_MS).unref()
  }

  return {
    atOnce: limits.atOnce,
    prepare: () => {
      if (ended || coming !== null || idle.length > 0 || busy.size >= limits.atOnce) return
      coming = hire()
        .then((worker) => (ended ? dismiss(worker) : rest(worker)))
        .catch(() => undefined) // it is told of when there is work
        .finally(() => {
          coming = null
        })
    },
    work: async (work, options) => {
      await coming
      const worker = idle.pop() ?? (await hire())
      busy.add(worker)
      try {
        const answer = await workedBy<Early, Result>(worker, { work, options, limits, trade })
        if (!ended && worker.child.connected) rest(worker)
        else await dismiss(worker)
        if (answer.kind === 'refused') throw failureFrom(answer)
        return answer.result
      } catch (cause) {
        if (!idle.includes(worker)) await dismiss(worker)
        throw cause
      } finally {
        busy.delete(worker)
      }
    },
    end: async () => {
      ended = true
      await coming
      await Promise.all([...idle.splice(0), ...busy].map(dismiss))
    },
  }
}

function newWorker(folder: string, trade: Trade): Worker {
  const path = new URL(`../../../${trade.process}`, import.meta.url)
  const child = fork(fileURLToPath(path), [], {
    execArgv: [`--max-old-space-size=${OLD_SPACE_MB}`],
    stdio: ['ignore', 'ignore', 'pipe', 'ipc'],
    env: { ...process.env, TMPDIR: folder, TEMP: folder, TMP: folder },
  })
  let said = ''
  child.stderr?.setEncoding('utf8').on('data', (part: string) => {
    said = (said + part).slice(-4000)
  })
  try {
    if (child.pid !== undefined) setPriority(child.pid, NICE)
  } catch {
    // A system that lets nobody stand back works as it is.
  }
  child.unref()
  child.channel?.unref()
  return { child, folder, lastWords: () => said }
}

type Answer<Early, Result> = Extract<WorkWord<Early, Result>, { kind: 'done' | 'refused' }>

/** One file by one worker: its answer. @throws Failure for what became of the worker */
function workedBy<Early, Result>(
  worker: Worker,
  {
    work,
    options: { name, onProgress, onPicture, signal },
    limits,
    trade,
  }: Readonly<{ work: unknown; options: WorkOptions<Early>; limits: CrewLimits; trade: Trade }>,
): Promise<Answer<Early, Result>> {
  const { child } = worker
  return new Promise((resolve, reject) => {
    let silent = 0
    const giveUp = (cause: Error): void => finish(() => reject(cause))
    const clock = setInterval(() => {
      silent += 1
      if (silent > limits.silentSec) giveUp(tooLong(name, trade))
    }, 1000)
    const whole = setTimeout(() => giveUp(tooLong(name, trade)), limits.wholeSec * 1000)
    const hear = (word: WorkWord<Early, Result>): void => {
      switch (word.kind) {
        case 'ready':
          return
        case 'progress':
          silent = 0
          return onProgress(word.share, word.words)
        case 'picture':
          return onPicture(word.result)
        case 'memory':
          if (word.residentMb > limits.residentMb) giveUp(tooMuchMemory(name, { limits, trade }))
          return
        case 'done':
        case 'refused':
          return finish(() => resolve(word))
      }
    }
    const stop = (): void => giveUp(signal.reason as Error)
    const leave = (): void => giveUp(fellOver(worker, { name, limits, trade }))
    const finish = (end: () => void): void => {
      clearInterval(clock)
      clearTimeout(whole)
      child.off('message', hear).off('exit', leave).off('error', leave)
      signal.removeEventListener('abort', stop)
      end()
    }
    child.on('message', hear).on('exit', leave).on('error', leave)
    signal.addEventListener('abort', stop)
    if (signal.aborted) return stop()
    const order: WorkOrder = { kind: 'work', work }
    child.send(order, (cause) => {
      if (cause !== null) leave()
    })
  })
}

type About = Readonly<{ limits: CrewLimits; trade: Trade }>

function fellOver(
  { child, lastWords }: Worker,
  { name, ...about }: About & Readonly<{ name: string }>,
): Failure {
  const outOfMemory = /heap out of memory|ENOMEM|std::bad_alloc|Cannot allocate/i.test(lastWords())
  if (outOfMemory || child.exitCode === constants.signals.SIGABRT + 128) {
    return tooMuchMemory(name, about)
  }
  const message = `Reading ${quoted(name)} broke off without a reason: ${about.trade.brokeOff}.`
  return new Failure('unreadable file', message, { cause: new Error(lastWords()) })
}

function tooMuchMemory(name: string, { limits: { residentMb }, trade }: About): Failure {
  const message = `Reading ${quoted(name)} took more than ${residentMb} MB of memory: ${trade.tookTooMuch}.`
  return new Failure('too large', message)
}

function tooLong(name: string, { tookTooMuch }: Trade): Failure {
  const message = `Reading ${quoted(name)} took too long and was given up: ${tookTooMuch}.`
  return new Failure('too large', message)
}

function quoted(name: string): string {
  return `"${name.replace(/\p{C}/gu, '?')}"`
}
