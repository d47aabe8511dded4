import { createReadStream } from 'node:fs'
import { rm } from 'node:fs/promises'
import { join } from 'node:path'
import { isFailure } from '../../core/failure.ts'
import { mm, share, um } from '../../core/units/quantity.ts'
import { type BlobRecord } from '../../store/blobs/blobRecord.ts'
import { blobFile, storeBlob } from '../../store/blobs/blobStore.ts'
import { type Database, inTransaction } from '../../store/database/database.ts'
import type { Json } from '../../store/database/record.ts'
import { type Film, filmIsReady, filmIsRefused, filmOf, films } from '../../store/films.ts'
import { keepForecast } from '../../store/forecasts.ts'
import { sortableId } from '../../store/ids.ts'
import { endJob, holdJob, takeJob } from '../../store/jobLease.ts'
import { cancelJob, type Job, openJobs, queueJob } from '../../store/jobs.ts'
import type { OpenShop } from '../../store/openShop.ts'
import type { Setup } from '../../workflow/setup.ts'
import { forecastKey } from '../films/filmKey.ts'
import { demoFilmOf } from '../shop/demoShop.ts'
import type { Crew } from './crew.ts'
import type { FilmSource, FilmWork, FilmWorkResult } from './work.ts'

/** How far the work on a film is. */
export type FilmProgress = Readonly<{ share: number; words: string }>

/** A film that is to be forecast under a setup; one that was never read is read by the way. */
export type FilmAsk = Readonly<{ filmId: string; setup: Setup }>

/** The work on films: asked for by routes, done one after another by the crew. */
export type FilmJobs = Readonly<{
  /** Puts it into the queue; asked twice it is one. In a transaction when `inner` is one. */
  queue: (inner: Database, ask: FilmAsk) => Promise<void>
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
const MOST_TILE_BYTES = 8 * 2 ** 30
const TILES_TYPE = 'application/x.yellowroom-tiles'

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
    crew: Crew
    now: () => Date
    /** Something that answers rest on is different now. */
    onChange: () => void
    onTrouble: (cause: unknown) => void
  }>,
): FilmJobs {
  const { database, blobs, folder } = shop
  const worker = `${process.pid}`
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
      progress: { share: 0, words: '' },
      stop: new AbortController(),
      filmId,
    }
    running.set(job.id, own)
    const held = { id: job.id, worker }
    const hold = async (): Promise<void> => {
      const { share: done, words } = own.progress
      const progress = { leaseSec: LEASE_SEC, progressShare: share(done), progressWords: words || null }
      const answer = await holdJob(database, held, progress, { at: now() })
      if (answer !== 'go on') own.stop.abort(new Cancelled())
    }
    const heart = setInterval(() => void hold().catch(onTrouble), HEARTBEAT_MS)
    const scratch = sortableId(now())
    const tilesPath = join(folder.incoming, `${scratch}.tiles`)
    const mapPath = join(folder.incoming, `${scratch}.map`)
    try {
      const film = await filmOf(database, filmId)
      const work: FilmWork = { source: await sourceOf(film, mapPath), setup, tilesPath }
      const result = await crew.work(work, {
        name: film.fileName ?? film.name,
        onProgress: (done, words) => {
          own.progress = { share: done, words }
        },
        signal: own.stop.signal,
      })
      await keep({ job, film, setup, work, result })
      troubles.delete(keyOf({ filmId, setup }))
    } catch (cause) {
      await gaveUp(job, { filmId, setup }, cause)
    } finally {
      clearInterval(heart)
      running.delete(job.id)
      await Promise.all([rm(tilesPath, { force: true }), rm(mapPath, { force: true })])
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

  const blobFrom = (path: string, mediaType: string): Promise<BlobRecord> =>
    storeBlob(
      blobs,
      createReadStream(path, { highWaterMark: 2 ** 20 }) as AsyncIterable<Uint8Array>,
      { mediaType, limitBytes: MOST_TILE_BYTES },
      { at: now() },
    )

  /** All that was found out, and that the job is done: together or not at all. */
  const keep = async ({
    job,
    film,
    setup,
    work,
    result,
  }: Readonly<{ job: Job; film: Film; setup: Setup; work: FilmWork; result: FilmWorkResult }>) => {
    const tiles = await blobFrom(work.tilesPath, TILES_TYPE)
    const map = work.source.kind === 'demo' ? await blobFrom(work.source.mapPath, 'image/tiff') : null
    const { picture, ...marks } = result
    const { widthPx, heightPx, pixelUm } = picture
    const measured = {
      widthMm: mm((widthPx * pixelUm) / 1000),
      heightMm: mm((heightPx * pixelUm) / 1000),
      pixelUm: um(pixelUm),
    }
    await inTransaction(database, async (inner) => {
      const at = now()
      const held = { id: job.id, worker }
      const mine = await endJob(inner, held, { state: 'done', result: null }, { at })
      if (!mine) throw new Cancelled()
      await keepForecast(
        inner,
        {
          ...forecastKey(film.id, setup),
          setup: setup as unknown as Json,
          answer: result as unknown as Json,
          leakBlob: tiles.sha256,
        },
        { at },
      )
      if (film.status === 'ready') return
      const mapBlob = map?.sha256 ?? film.mapBlob
      const found = { ...measured, mapBlob, tilesBlob: tiles.sha256, marks: marks as unknown as Json }
      await filmIsReady(inner, film.id, found, { at })
    })
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
        await queueJob(
          database,
          { kind: KIND, payload: payload as unknown as Json, workKey: keyOf(payload) },
          { at: now() },
        )
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

const UNSAID = 'Reading this film met a fault in Yellowroom: bring it again, or save it in another form.'

function keyOf({ filmId, setup }: FilmAsk): string {
  return `film ${filmId} ${forecastKey(filmId, setup).setupHash}`
}
