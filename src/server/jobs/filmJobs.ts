import { mkdir, rm } from 'node:fs/promises'
import { join } from 'node:path'
import { isFailure } from '../../core/failure.ts'
import { share } from '../../core/units/quantity.ts'
import type { BlobRecord } from '../../store/blobs/blobRecord.ts'
import { blobFile } from '../../store/blobs/blobStore.ts'
import { type Database, inTransaction } from '../../store/database/database.ts'
import type { Json } from '../../store/database/record.ts'
import { type Film, filmIsRefused, filmOf, films } from '../../store/films.ts'
import { sortableId } from '../../store/ids.ts'
import { endJob, holdJob, takeJob } from '../../store/jobLease.ts'
import { cancelJob, type Job, openJobs, queueJob } from '../../store/jobs.ts'
import type { OpenShop } from '../../store/openShop.ts'
import type { Setup } from '../../workflow/setup.ts'
import { forecastKey } from '../films/filmKey.ts'
import { demoFilmOf } from '../shop/demoShop.ts'
import type { Crew } from './crew.ts'
import { type FilmSize, keepFilm, keepPicture, sizeOf } from './keepFilm.ts'
import type { FilmSource, FilmWork, FilmWorkPicture, FilmWorkResult } from './work.ts'

/** How far the work on a film is, and its size once that is known. */
export type FilmProgress = Readonly<{ share: number; words: string; size: FilmSize | null }>

/** A film that is to be forecast under a setup; one that was never read is read by the way. */
export type FilmAsk = Readonly<{ filmId: string; setup: Setup }>

/** The work on films: asked for by routes, done one after another by the crew. */
export type FilmJobs = Readonly<{
  /** Puts it into the queue; asked twice it is one. In a transaction when `inner` is one. */
  queue: (inner: Database, ask: FilmAsk) => Promise<void>
  /** A film is on its way. */
  expect: () => void
  /** There is something new in the queue, or somebody is free. */
  wake: () => void
  /** Null while nobody works on it. */
  progress: (filmId: string) => FilmProgress | null
  /** Why the last try for this setup failed; null when it did not. */
  trouble: (ask: FilmAsk) => string | null
  cancel: (filmId: string) => Promise<void>
  /** Queues again what waits and is in no queue, after a crash. */
  mend: (setupOf: (film: Film) => Promise<Setup>) => Promise<void>
  end: () => Promise<void>
}>

const KIND = 'film'
const LEASE_SEC = 60
const HEARTBEAT_MS = 10_000
const LOOK_MS = 5_000
/** A film that takes the whole computer down with it is not begun for ever. */
const MOST_ATTEMPTS = 10
const MOST_FILMS = 10_000

class Cancelled extends Error {}
class Ended extends Error {}

type Running = { progress: FilmProgress; stop: AbortController; filmId: string }

export function filmJobs(
  shop: OpenShop,
  {
    crew,
    now,
    onChange,
    onTrouble,
  }: Readonly<{
    crew: Crew<FilmWork, FilmWorkPicture, FilmWorkResult>
    now: () => Date
    /** Something that answers rest on is different now. */
    onChange: () => void
    onTrouble: (cause: unknown) => void
  }>,
): FilmJobs {
  const { database, blobs, folder } = shop
  // its own among all that share the database: numbers of processes are alike in containers
  const worker = sortableId(now())
  const running = new Map<string, Running>()
  const troubles = new Map<string, string>()
  let ended = false
  let looking = false
  let again = false

  const look = async (): Promise<void> => {
    if (looking || ended) {
      again = true
      return
    }
    looking = true
    try {
      do {
        again = false
        while (!ended && running.size < crew.atOnce) {
          const job = await takeJob(
            database,
            { name: worker, kinds: [KIND], leaseSec: LEASE_SEC },
            { at: now() },
          )
          if (job === null) break
          void run(job).catch(onTrouble)
        }
      } while (again && !ended)
    } catch (cause) {
      onTrouble(cause)
    } finally {
      looking = false
    }
  }
  const run = async (job: Job): Promise<void> => {
    const { filmId, setup } = job.payload as unknown as FilmAsk
    const own: Running = {
      progress: { share: 0, words: '', size: null },
      stop: new AbortController(),
      filmId,
    }
    running.set(job.id, own)
    const held = { id: job.id, worker }
    const hold = async (): Promise<void> => {
      const { share: done, words } = own.progress
      const progress = {
        leaseSec: LEASE_SEC,
        progressShare: share(done),
        progressWords: words || null,
      }
      const answer = await holdJob(database, held, progress, { at: now() })
      if (answer !== 'go on') own.stop.abort(new Cancelled())
    }
    const heart = setInterval(() => void hold().catch(onTrouble), HEARTBEAT_MS)
    // a folder of its own: whoever is stopped in the middle of a file leaves its draft there
    const scratch = join(folder.incoming, `film-${sortableId(now())}`)
    const tilesPath = join(scratch, 'tiles')
    const shownPath = join(scratch, 'shown')
    const mapPath = join(scratch, 'map')
    let early: Promise<BlobRecord | null> = Promise.resolve(null)
    try {
      const film = await filmOf(database, filmId)
      await mkdir(scratch, { recursive: true })
      const source = await sourceOf(film, mapPath)
      const work: FilmWork = { source, setup, tilesPath, shownPath }
      const result = await crew.work(work, {
        name: film.fileName ?? film.name,
        onProgress: (done, words) => {
          own.progress = { ...own.progress, share: done, words }
        },
        onPicture: (found) => {
          early = keepPicture(shop, { film, work, found, at: now() })
            .then((tiles) => {
              own.progress = { ...own.progress, size: sizeOf(found.picture) }
              return tiles
            })
            .catch((cause: unknown) => {
              if (!own.stop.signal.aborted) onTrouble(cause)
              return null
            })
        },
        signal: own.stop.signal,
      })
      const tiles = await early
      const mine = await keepFilm(shop, { held, film, work, tiles, result, at: now() })
      if (!mine) throw new Cancelled()
      troubles.delete(keyOf({ filmId, setup }))
    } catch (cause) {
      await gaveUp(job, { filmId, setup }, cause)
    } finally {
      clearInterval(heart)
      await early
      running.delete(job.id)
      await rm(scratch, { recursive: true, force: true, maxRetries: 5 })
      onChange()
      void look()
    }
  }

  const sourceOf = async (film: Film, mapPath: string): Promise<FilmSource> => {
    const demo = demoFilmOf(film)
    if (demo !== null && film.mapBlob === null) return { kind: 'demo', film: demo, mapPath }
    const { path } = await blobFile(blobs, film.mapBlob ?? film.originalBlob)
    const { resolutionDpi, solidDensity, readAs, fileName, name } = film
    return { kind: 'file', path, name: fileName ?? name, resolutionDpi, solidDensity, as: readAs }
  }

  const gaveUp = async (job: Job, ask: FilmAsk, cause: unknown): Promise<void> => {
    if (ended || cause instanceof Ended) return // the next start begins it again
    const held = { id: job.id, worker }
    const at = now()
    if (cause instanceof Cancelled || isFailure(cause, 'not found')) {
      await endJob(database, held, { state: 'cancelled' }, { at })
      return
    }
    if (!isFailure(cause)) onTrouble(cause)
    const trouble = isFailure(cause) ? cause.message : UNSAID
    troubles.set(keyOf(ask), trouble)
    await inTransaction(database, async (inner) => {
      await endJob(inner, held, { state: 'failed', trouble }, { at })
      const film = await filmOf(inner, ask.filmId)
      if (film.status === 'waiting') await filmIsRefused(inner, film.id, { refusal: trouble })
    })
  }

  const timer = setInterval(() => void look(), LOOK_MS)
  timer.unref()

  return {
    queue: async (inner, ask) => {
      troubles.delete(keyOf(ask))
      const payload = ask as unknown as Json
      const workKey = keyOf(ask)
      await queueJob(
        inner,
        { kind: KIND, payload, workKey, mostAttempts: MOST_ATTEMPTS },
        { at: now() },
      )
    },
    expect: () => {
      if (!ended) crew.prepare()
    },
    wake: () => void look(),
    progress: (filmId) => {
      for (const own of running.values()) if (own.filmId === filmId) return own.progress
      return null
    },
    trouble: (ask) => troubles.get(keyOf(ask)) ?? null,
    cancel: async (filmId) => {
      for (const job of await openJobs(database)) {
        if ((job.payload as unknown as FilmAsk).filmId !== filmId) continue
        await cancelJob(database, job.id, { at: now() })
        running.get(job.id)?.stop.abort(new Cancelled())
      }
    },
    mend: async (setupOf) => {
      const queued = new Set(
        (await openJobs(database)).map(({ payload }) => (payload as unknown as FilmAsk).filmId),
      )
      for (const film of await films(database, { limit: MOST_FILMS })) {
        if (film.status !== 'waiting' || queued.has(film.id)) continue
        const payload = { filmId: film.id, setup: await setupOf(film) }
        await queueJob(database, { kind: KIND, payload, workKey: keyOf(payload) }, { at: now() })
      }
    },
    end: async () => {
      ended = true
      clearInterval(timer)
      for (const { stop } of running.values()) stop.abort(new Ended())
      await crew.end()
    },
  }
}

const UNSAID =
  'Reading this film met a fault in Yellowroom: bring it again, or save it in another form.'

function keyOf({ filmId, setup }: FilmAsk): string {
  return `film ${filmId} ${forecastKey(filmId, setup).setupHash}`
}
