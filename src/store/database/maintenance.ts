import { sql } from 'kysely'
import type { BlobPlace } from '../blobs/blobStore.ts'
import { clearBlobs } from '../blobs/clearBlobs.ts'
import { lastUpkeep, noteUpkeep } from '../upkeep.ts'
import type { Database } from './database.ts'
import type { Engine } from './engine.ts'

const ROUND_MS = 5 * 60_000
const DAY_MS = 24 * 3600_000
/** The hour after which a day's cleaning is due, by this computer's clock. */
const NIGHT_HOUR = 3

export type Maintenance = Readonly<{
  /** What is due now; called by itself every five minutes. */
  round: () => Promise<void>
  /** No more rounds; a last checkpoint, so that the next start is quick. */
  stop: () => Promise<void>
}>

/**
 * The embedded database never writes its log down or cleans up by itself: we do, the log every five
 * minutes in which something was saved; the cleaning, of rows that are gone and of files that no
 * record names, once a night, or at the first round after a night that the computer was off. With a
 * server that has its own upkeep this does nothing, and the files are its operator's to clear.
 *
 * @param onTrouble hears what failed; the next round tries again
 */
export function maintain(
  { engine, database, blobs }: Readonly<{ engine: Engine; database: Database; blobs: BlobPlace }>,
  {
    now = () => new Date(),
    onTrouble = () => undefined,
  }: Readonly<{ now?: () => Date; onTrouble?: (cause: unknown) => void }> = {},
): Maintenance {
  if (engine.kind === 'server') return { round: async () => undefined, stop: async () => undefined }
  let written = -1

  const checkpoint = async (): Promise<void> => {
    if (engine.syncs() === written) return
    await sql`checkpoint`.execute(database)
    written = engine.syncs()
  }
  const clean = async (): Promise<void> => {
    const at = now()
    const { vacuum } = await lastUpkeep(database)
    if (vacuum !== null && !isDue(vacuum, at)) return
    await clearBlobs(blobs, { at })
    await sql`vacuum (analyze)`.execute(database)
    await noteUpkeep(database, 'vacuum', { at })
  }
  const round = async (): Promise<void> => {
    try {
      await clean()
      await checkpoint()
    } catch (cause) {
      onTrouble(cause)
    }
  }
  const timer = setInterval(() => void round(), ROUND_MS)
  timer.unref()
  return {
    round,
    stop: async () => {
      clearInterval(timer)
      await checkpoint().catch(onTrouble)
    },
  }
}

/** Whether a night began since: the newest three o'clock lies between. */
function isDue(last: Date, at: Date): boolean {
  const night = new Date(at)
  night.setHours(NIGHT_HOUR, 0, 0, 0)
  if (night > at) night.setTime(night.getTime() - DAY_MS)
  return last < night
}
