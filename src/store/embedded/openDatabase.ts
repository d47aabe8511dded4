import { setFlagsFromString } from 'node:v8'
import { type messages, PGlite, type PGliteOptions } from '@electric-sql/pglite'
import { Failure } from '../../core/failure.ts'
import { diskFull, named, readOnly, refusedBy } from '../folder/refused.ts'
import { placesIn } from '../folder/shopFolder.ts'
import { DurableNodeFS, inSystemWords } from './durableFs.ts'
import { beginFirstStart, endFirstStart, expectWhole } from './firstStart.ts'
import { settle } from './settle.ts'

export type Message = messages.BackendMessage

/** What the database answered, and how often its disk was flushed up to then. */
export type Answer = Readonly<{ messages: readonly Message[]; syncs: number }>

/** A database in this thread, which it blocks while it works. */
export type OpenDatabase = Readonly<{
  /** One message of PostgreSQL's protocol in, all answers to it out; errors are answers. */
  execute: (message: Uint8Array) => Promise<Answer>
  close: () => Promise<void>
}>

export type Step = 'making the database' | 'opening the database'

/** What may be heard from a database beside its answers. */
export type Listeners = Readonly<{
  onStep?: (step: Step) => void
  /** It was open and had to stop, most often because the disk failed under it. */
  onPanic?: (reason: string) => void
}>

/** The flush that its build really does is fsync; fdatasync there reports success and does nothing. */
const DURABLE_PARAMETERS = [
  ...PGlite.defaultStartParams.filter((parameter) => parameter !== '-F'),
  '-c',
  'fsync=on',
  '-c',
  'wal_sync_method=fsync',
  '-c',
  'shared_buffers=16MB', // all of the usual 128 is cleared at each start, and the system keeps files too
]

/**
 * Bytes of code that a function runs through before the engine compiles it anew to be faster. The
 * usual 1.8 MB lets a start compile for a second what it runs once.
 */
const WORTH_COMPILING_BYTES = 1e8

/**
 * Opens the database in a shop's folder, making it when there is none. The caller holds the lock.
 *
 * @throws Failure 'world failed' when it is damaged, from another version, or cannot be trusted to
 * reach the disk; 'cannot write' when the disk is full or refuses
 */
export async function openDatabase(
  path: string,
  { onStep = () => undefined, onPanic = () => undefined }: Listeners = {},
): Promise<OpenDatabase> {
  const folder = placesIn(path)
  try {
    const isFirst = await beginFirstStart(folder)
    onStep(isFirst ? 'making the database' : 'opening the database')
    if (!isFirst) await expectWhole(folder)
    const files = new DurableNodeFS(folder.database)
    files.isSettled = !isFirst && (await settle(folder))
    const options = { fs: files, startParams: DURABLE_PARAMETERS }
    const database = await started(path, { options, onPanic })
    files.isSettled = false
    await prove(database, files, path)
    if (isFirst) await endFirstStart(folder)
    return {
      execute: async (message) => {
        const messages = await database.execProtocolStream(message, { throwOnError: false })
        return { messages, syncs: files.syncs }
      },
      close: () => database.close(),
    }
  } catch (cause) {
    throw refusedBy(path, cause)
  }
}

async function started(
  folder: string,
  { options, onPanic }: Readonly<{ options: PGliteOptions; onPanic: (reason: string) => void }>,
): Promise<PGlite> {
  let isOpen = false
  let reason = ''
  const onStderr = (line: string): boolean => {
    const fatal = /\b(?:FATAL|PANIC):\s*(.*)/.exec(line)?.[1]
    if (fatal === undefined) return false
    reason = fatal
    if (isOpen) onPanic(reason)
    return false
  }
  setFlagsFromString(`--wasm-tiering-budget=${WORTH_COMPILING_BYTES}`)
  try {
    const database = await PGlite.create({ ...options, onStderr })
    isOpen = true
    return database
  } catch (cause) {
    throw whyNotStarted(folder, { reason, cause })
  }
}

/** The database's last words are the reason; what it throws says only that it stopped. */
function whyNotStarted(
  folder: string,
  { reason, cause }: Readonly<{ reason: string; cause: unknown }>,
): Failure {
  if (/No space left|quota exceeded/i.test(reason)) return diskFull(named(folder), cause)
  if (/Permission denied|Read-only file system|not permitted/i.test(reason)) {
    return readOnly(folder, cause)
  }
  if (reason === '') return refusedBy(folder, inSystemWords(cause))
  const message = `The database in ${named(folder)} is damaged (${reason}): restore the newest backup into an empty folder.`
  return new Failure('world failed', message, { cause })
}

/**
 * Commits something and sees that the disk was flushed for it. It is no row of a table, so that it
 * leaves nothing behind, but it is written, flushed and committed like one.
 */
async function prove(database: PGlite, files: DurableNodeFS, folder: string): Promise<void> {
  const before = files.syncs
  await database.query("select pg_logical_emit_message(true, 'yellowroom', 'proof')")
  if (files.syncs > before) return
  await database.close()
  const message = `What Yellowroom saves in ${named(folder)} would not reach the disk before a power cut, so it does not start: install the exact versions of package-lock.json with 'npm ci'.`
  throw new Failure('world failed', message)
}
