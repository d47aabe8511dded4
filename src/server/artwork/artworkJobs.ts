import { mkdir, rm } from 'node:fs/promises'
import { join } from 'node:path'
import { isFailure } from '../../core/failure.ts'
import { share } from '../../core/units/quantity.ts'
import { type Artwork, artworkOf, changeArtwork } from '../../store/artworks.ts'
import { blobFile } from '../../store/blobs/blobStore.ts'
import type { Json } from '../../store/database/record.ts'
import { sortableId } from '../../store/ids.ts'
import { endJob, holdJob, takeJob } from '../../store/jobLease.ts'
import { cancelJob, type Job, newestJob, queueJob } from '../../store/jobs.ts'
import type { OpenShop } from '../../store/openShop.ts'
import { NOTHING_PASSES, type Passing, passingInks } from '../../workflow/makeFilms/passingInks.ts'
import type { PlanFile } from '../../workflow/makeFilms/usualPlan.ts'
import type { Crew, CrewLimits, Trade } from '../jobs/crew.ts'
import { inkedLayers } from './artworkThings.ts'
import type { ArtworkResult, ArtworkWork, Seen } from './artworkWork.ts'
import { keepLook, keepMade } from './keepArtwork.ts'
import { planWithTones } from './printsKnown.ts'

export const ARTWORK_TRADE: Trade = {
  name: 'artwork',
  process: 'dist/server/artwork/artworkProcess.js',
  brokeOff: 'save it in another form, like PNG or PDF, and bring it again',
  tookTooMuch: 'save it with fewer pixels or a simpler drawing, and bring it again',
}

/** Films of a large sheet at a fine resolution take their time, and as long as one is written nothing is said. */
export const ARTWORK_LIMITS: CrewLimits = {
  atOnce: 1,
  residentMb: 1024,
  silentSec: 600,
  wholeSec: 3600,
}

export type Making = Readonly<{ share: number; words: string }>

/**
 * The work on artwork. It is looked at when somebody asks after it, and its films are made from a
 * queue in the database: a restart loses nothing of either.
 */
export type ArtworkJobs = Readonly<{
  /** Looks at it, unless that was done or is under way. */
  care: (artwork: Artwork) => void
  /** Puts the making of its films into the queue; asked twice it is one. */
  make: (artwork: Artwork) => Promise<void>
  /** The newest making, finished or not. */
  newest: (artworkId: string) => Promise<Job | null>
  /** How far the making is; null while nobody works on it. */
  making: (artworkId: string) => Making | null
  /** Ends the making; the artwork stays. */
  cancel: (artworkId: string) => Promise<void>
  /** Ends all that is done with it. */
  forget: (artworkId: string) => Promise<void>
  wake: () => void
  end: () => Promise<void>
}>

const KIND = 'artwork films'
const LEASE_SEC = 60
const HEARTBEAT_MS = 5000
const LOOK_MS = 5000
/** Artwork that takes the whole computer down with it is not begun for ever. */
const MOST_ATTEMPTS = 10
const MOST_LOOKS = 2

class Stopped extends Error {}

type Payload = Readonly<{ artworkId: string; plan: PlanFile }>
type Running = { making: Making; stop: AbortController; artworkId: string; ended: Promise<void> }

export function artworkJobs(
  shop: OpenShop,
  {
    crew,
    now,
    onTrouble,
  }: Readonly<{
    crew: Crew<ArtworkWork, never, ArtworkResult>
    now: () => Date
    onTrouble: (cause: unknown) => void
  }>,
): ArtworkJobs {
  const { database, blobs, folder } = shop
  // its own among all that share the database: numbers of processes are alike in containers
  const worker = sortableId(now())
  const looks = new Map<string, Running>()
  const makes = new Map<string, Running>()
  let ended = false
  let looking = false
  let again = false

  const began = (artworkId: string): Running => ({
    making: { share: 0, words: '' },
    stop: new AbortController(),
    artworkId,
    ended: Promise.resolve(),
  })
  const done = (work: ArtworkWork, own: Running): Promise<ArtworkResult> =>
    crew.work(work, {
      name: work.artwork.name,
      onProgress: (share, words) => {
        own.making = { share, words }
      },
      onPicture: () => undefined,
      signal: own.stop.signal,
    })
  const fileOf = async ({ originalBlob, fileName }: Artwork): Promise<ArtworkWork['artwork']> => ({
    path: (await blobFile(blobs, originalBlob)).path,
    name: fileName,
  })
  /** A folder of its own: whoever is stopped in the middle of a file leaves its draft there. */
  const scratched = async (work: (scratch: string) => Promise<void>): Promise<void> => {
    const scratch = join(folder.incoming, `artwork-${sortableId(now())}`)
    await mkdir(scratch, { recursive: true })
    try {
      await work(scratch)
    } finally {
      await rm(scratch, { recursive: true, force: true, maxRetries: 5 })
    }
  }

  const look = (artwork: Artwork, own: Running): Promise<void> =>
    scratched(async (scratch) => {
      try {
        const samplesPath = join(scratch, 'samples')
        const result = await done(
          { kind: 'look', artwork: await fileOf(artwork), samplesPath, passing: wanted(artwork) },
          own,
        )
        if (own.stop.signal.aborted || result.kind !== 'look') return
        await keepLook(shop, { artwork, seen: result.seen, samplesPath, at: now() })
      } catch (cause) {
        if (ended || cause instanceof Stopped || isFailure(cause, 'not found')) return
        if (!isFailure(cause)) onTrouble(cause)
        const refusal = isFailure(cause) ? cause.message : UNSAID
        await changeArtwork(database, artwork.id, { refusal }).catch(gone)
      }
    })

  const run = (job: Job, own: Running): Promise<void> =>
    scratched(async (scratch) => {
      const held = { id: job.id, worker }
      const hold = async (): Promise<void> => {
        const { share: progress, words } = own.making
        const told = { progressShare: share(progress), progressWords: words || null }
        const answer = await holdJob(
          database,
          held,
          { leaseSec: LEASE_SEC, ...told },
          { at: now() },
        )
        if (answer !== 'go on') own.stop.abort(new Stopped())
      }
      const heart = setInterval(() => void hold().catch(onTrouble), HEARTBEAT_MS)
      const { artworkId, plan } = job.payload as unknown as Payload
      try {
        const artwork = await artworkOf(database, artworkId)
        const result = await done(
          {
            kind: 'make',
            artwork: await fileOf(artwork),
            plan,
            folder: scratch,
            layers: await inkedLayers(database, artwork.ticketId),
          },
          own,
        )
        if (result.kind !== 'make') throw new RangeError('artwork: expected films')
        if (!(await keepMade(shop, { held, artwork, result, at: now() }))) throw new Stopped()
      } catch (cause) {
        await gaveUp(job, cause)
      } finally {
        clearInterval(heart)
      }
    })
  const gaveUp = async (job: Job, cause: unknown): Promise<void> => {
    if (ended) return // the next start begins it again
    const held = { id: job.id, worker }
    if (cause instanceof Stopped || isFailure(cause, 'not found')) {
      await endJob(database, held, { state: 'cancelled' }, { at: now() })
      return
    }
    if (!isFailure(cause)) onTrouble(cause)
    const trouble = isFailure(cause) ? cause.message : UNSAID
    await endJob(database, held, { state: 'failed', trouble }, { at: now() })
  }

  const begin = async (): Promise<boolean> => {
    const asked = { name: worker, kinds: [KIND], leaseSec: LEASE_SEC }
    const job = await takeJob(database, asked, { at: now() })
    if (job === null) return false
    const own = began((job.payload as unknown as Payload).artworkId)
    makes.set(job.id, own)
    own.ended = run(job, own)
      .catch(onTrouble)
      .finally(() => {
        makes.delete(job.id)
        void wake()
      })
    return true
  }
  const wake = async (): Promise<void> => {
    again = looking // what came while it was looked for is looked for once more
    if (looking || ended) return
    looking = true
    try {
      do {
        again = false
        while (!ended && makes.size < crew.atOnce && (await begin()));
      } while (again && !ended)
    } catch (cause) {
      onTrouble(cause)
    } finally {
      looking = false
    }
  }
  const timer = setInterval(() => void wake(), LOOK_MS)
  timer.unref()

  const cancel = async (artworkId: string): Promise<void> => {
    const job = await newestJob(database, keyOf(artworkId))
    if (job !== null) await cancelJob(database, job.id, { at: now() })
    for (const own of makes.values()) {
      if (own.artworkId !== artworkId) continue
      own.stop.abort(new Stopped())
      await own.ended
    }
  }
  return {
    care: (artwork) => {
      const { id, seen, refusal } = artwork
      const isKnown = (seen !== null && !isForOthers(artwork)) || refusal !== null
      if (ended || isKnown || looks.has(id) || looks.size >= MOST_LOOKS) return
      const own = began(id)
      looks.set(id, own)
      own.ended = look(artwork, own)
        .catch(onTrouble)
        .finally(() => looks.delete(id))
    },
    make: async ({ id, plan: asked, fabricId }) => {
      const plan = (await planWithTones(database, asked as PlanFile, fabricId)) as Json
      const payload = { artworkId: id, plan } as const
      const job = { kind: KIND, payload, workKey: keyOf(id), mostAttempts: MOST_ATTEMPTS }
      await queueJob(database, job, { at: now() })
      void wake()
    },
    newest: (artworkId) => newestJob(database, keyOf(artworkId)),
    making: (artworkId) => {
      for (const own of makes.values()) if (own.artworkId === artworkId) return own.making
      return null
    },
    cancel,
    forget: async (artworkId) => {
      const own = looks.get(artworkId)
      own?.stop.abort(new Stopped())
      await own?.ended
      await cancel(artworkId)
    },
    wake: () => void wake(),
    end: async () => {
      ended = true
      clearInterval(timer)
      const all = [...looks.values(), ...makes.values()]
      for (const { stop } of all) stop.abort(new Stopped())
      await Promise.all(all.map((own) => own.ended))
      await crew.end()
    },
  }
}

/** What is to pass through in the samples of artwork; null before anybody looked at it. */
function wanted({ seen, plan }: Artwork): Passing | null {
  return seen === null ? null : passingInks(plan as PlanFile | null, seen as unknown as Seen)
}

/** Whether its samples are for other inks of its own than the plan names now. */
export function isForOthers(artwork: Artwork): boolean {
  const passing = wanted(artwork)
  if (passing === null) return false
  const { passing: known = NOTHING_PASSES } = artwork.seen as unknown as Seen
  return JSON.stringify(known) !== JSON.stringify(passing)
}

const UNSAID =
  'This artwork met a fault in Yellowroom: save it in another form, like PNG or PDF, and bring it again.'

function keyOf(artworkId: string): string {
  return `artwork films ${artworkId}`
}

function gone(cause: unknown): void {
  if (!isFailure(cause, 'not found')) throw cause
}
