import { fileURLToPath } from 'node:url'
import { Worker } from 'node:worker_threads'
import { Failure } from '../core/failure.ts'
import type { PdfAnswer, PdfAsk, PdfFacts } from './pdfThread.ts'
import { unreadable } from './sourceFile.ts'

/** A PDF in a thread of its own, whose library can neither hang nor break the process. */
export type PdfDrawing = Readonly<{
  facts: PdfFacts
  ask: <Kind extends PdfAnswer['kind']>(
    asked: PdfAsk,
    kind: Kind,
  ) => Promise<Extract<PdfAnswer, { kind: Kind }>>
  close: () => Promise<void>
}>

/** The compiled thread, from the sources and from what is compiled of them alike. */
const THREAD = fileURLToPath(new URL('../../dist/decode/pdfThread.js', import.meta.url))

/** A thread with more memory than this is not kept for the next file. */
const MOST_KEPT_BYTES = 64 * 2 ** 20

const INVOLVED =
  'is damaged or too involved to be drawn; save a simpler page, or export it as PNG or TIFF'

/** One that waits for the next file. */
let idle: Worker | null = null

/**
 * @param patienceMs the longest that one question may take
 * @throws Failure 'unreadable file', here and at each question
 */
export async function openPdfDrawing(
  path: string,
  { bytes, patienceMs }: Readonly<{ bytes: Uint8Array; patienceMs: number }>,
): Promise<PdfDrawing> {
  // What the libraries say of a file on their own account is not for people.
  const thread = idle ?? (await started(new Worker(THREAD, { stdout: true, stderr: true })))
  idle = null
  thread.ref()
  let isOpen = true
  let before: Promise<unknown> = Promise.resolve()
  const dismiss = async (): Promise<void> => {
    isOpen = false
    await thread.terminate()
  }
  const answered: PdfDrawing['ask'] = async (asked, kind) => {
    if (!isOpen) throw unreadable(path, INVOLVED)
    const answer = await answerOf(thread, asked, patienceMs)
    if (answer.kind === kind) return answer as Extract<PdfAnswer, { kind: typeof kind }>
    if (answer.kind === 'refused') throw unreadable(path, answer.what)
    await dismiss()
    throw unreadable(path, INVOLVED)
  }
  /** One question after the other. */
  const ask: PdfDrawing['ask'] = (asked, kind) => {
    const answer = before.then(() => answered(asked, kind))
    before = answer.catch(() => undefined)
    return answer
  }
  const close = async (): Promise<void> => {
    if (!isOpen) return
    const closed = await ask({ ask: 'close' }, 'closed').catch(() => null)
    if (closed === null || idle !== null || closed.memoryBytes > MOST_KEPT_BYTES) return dismiss()
    isOpen = false
    thread.unref()
    idle = thread
  }
  try {
    const { facts } = await ask({ ask: 'open', bytes }, 'opened')
    return { facts, ask, close }
  } catch (error) {
    await close()
    throw error
  }
}

/** A busy machine takes its time over this, whatever the file. */
const START_PATIENCE_MS = 120_000

async function started(thread: Worker): Promise<Worker> {
  const { kind } = await answerOf(thread, { ask: 'start' }, START_PATIENCE_MS)
  if (kind === 'started') return thread
  await thread.terminate()
  throw new Failure(
    'world failed',
    'The program that draws PDF pages does not start; try again, or give a PNG or TIFF.',
  )
}

/** The thread's answer; 'failed' where it takes too long or breaks. */
function answerOf(thread: Worker, asked: PdfAsk, patienceMs: number): Promise<PdfAnswer> {
  return new Promise((resolve) => {
    const settle = (answer: PdfAnswer): void => {
      clearTimeout(timer)
      thread.off('message', settle)
      thread.off('error', failed)
      thread.off('exit', failed)
      resolve(answer)
    }
    const failed = (): void => settle({ kind: 'failed' })
    const timer = setTimeout(failed, patienceMs)
    thread.on('message', settle)
    thread.on('error', failed)
    thread.on('exit', failed)
    thread.postMessage(asked, [])
  })
}
