import { Failure } from '../../core/failure.ts'
import { clearBlobs } from '../../store/blobs/clearBlobs.ts'
import type { Film } from '../../store/films.ts'
import { forgetOldForecasts } from '../../store/forecasts.ts'
import { forgetJobs } from '../../store/jobs.ts'
import type { OpenShop } from '../../store/openShop.ts'
import { forgetPeople } from '../../store/people.ts'
import { forgetPhotos } from '../../store/photos.ts'
import { shopOrNull } from '../../store/shop.ts'
import { lightSetup } from '../../workflow/lightSetup.ts'
import type { Setup } from '../../workflow/setup.ts'
import {
  ARTWORK_LIMITS,
  ARTWORK_TRADE,
  type ArtworkJobs,
  artworkJobs,
} from '../artwork/artworkJobs.ts'
import { FORECAST_VERSION } from '../films/filmKey.ts'
import { type TileShelf, tileShelf } from '../films/tileShelf.ts'
import { type CrewLimits, crewIn, FILM_TRADE } from '../jobs/crew.ts'
import { type FilmJobs, filmJobs } from '../jobs/filmJobs.ts'
import { PHOTO_LIMITS, PHOTO_TRADE, type PhotoJobs, photoJobs } from '../photos/photoJobs.ts'
import { beliefKeeper } from './beliefKeeper.ts'
import { dayOf } from './days.ts'
import { eveningShelf } from './eveningShelf.ts'
import { readingsKept } from './readingsKept.ts'
import { baseNamed, type RecordsMemory, type ShopRecords, shopRecords } from './shopRecords.ts'
import { thingsKept } from './shopThings.ts'
import { usualScreen } from './usual.ts'

/** The open shop as routes see it: its records, kept, and the work that is under way. */
export type ShopService = Readonly<{
  store: OpenShop
  now: () => Date
  /** @throws Failure 'not found' while there is no shop */
  records: () => Promise<ShopRecords>
  /** Something of what answers rest on was written, or readings alone: they are computed anew. */
  changed: (what?: 'readings') => void
  /** An answer that holds until something changes, or the day does. */
  kept: <Answer>(question: string, answer: () => Promise<Answer>) => Promise<Answer>
  jobs: FilmJobs
  photos: PhotoJobs
  artwork: ArtworkJobs
  tiles: TileShelf
  /** The set-up of a film on what is usual, or on what was asked for. */
  usualSetup: (film: Pick<Film, 'baseId'>) => Promise<Setup>
  close: () => Promise<void>
}>

const DAY_MS = 24 * 3600_000
const MOST_KEPT = 2000
const JOBS_KEPT_MS = 30 * DAY_MS
const FORECASTS_KEPT_MS = 90 * DAY_MS
const PHOTOS_KEPT_MS = 30 * DAY_MS
/** A shop that is switched off every evening is tidied too, when the first questions are answered. */
const FIRST_TIDYING_MS = 60_000

export type ServiceOptions = Readonly<{
  now?: () => Date
  limits?: CrewLimits
  onTrouble: (cause: unknown) => void
}>

/** Takes up the work on a shop that was just opened. */
export async function shopService(
  store: OpenShop,
  { now = () => new Date(), limits, onTrouble }: ServiceOptions,
): Promise<ShopService> {
  let records: Promise<ShopRecords> | null = null
  let answers = new Map<string, Promise<unknown>>()
  const things = thingsKept()
  const changed: ShopService['changed'] = (what) => {
    if (what !== 'readings') things.forget()
    records = null
    answers = new Map()
  }
  const memory: RecordsMemory = {
    things,
    readings: readingsKept(),
    keeper: beliefKeeper({
      onCaughtUp: () => changed('readings'),
      shelf: eveningShelf(store.database, { now }),
      onTrouble,
    }),
    saidOfGround: new WeakMap(),
    saidOfDrift: new WeakMap(),
  }
  const currentRecords = (): Promise<ShopRecords> => {
    if (records === null) {
      const reading = shopRecords(store.database, memory, { today: dayOf(now()) })
      reading.catch(() => {
        if (records === reading) records = null
      })
      records = reading
    }
    return records
  }
  const usualSetup: ShopService['usualSetup'] = async ({ baseId }) => {
    const known = await currentRecords()
    const [unit] = known.units
    if (unit === undefined)
      throw new Failure('not found', 'There is no exposure unit in this shop.')
    const screen = usualScreen(known)?.light ?? null
    return lightSetup({ base: baseNamed(known, baseId), screen, unit })
  }
  const jobs = filmJobs(store, {
    crew: crewIn(store.folder.incoming, { trade: FILM_TRADE, limits }),
    now,
    onChange: () => changed(),
    onTrouble,
  })
  const photos = photoJobs(store, {
    crew: crewIn(store.folder.incoming, { trade: PHOTO_TRADE, limits: PHOTO_LIMITS }),
    now,
    onTrouble,
  })
  const artwork = artworkJobs(store, {
    crew: crewIn(store.folder.incoming, { trade: ARTWORK_TRADE, limits: ARTWORK_LIMITS }),
    now,
    onTrouble,
  })
  const tiles = tileShelf(store, { now })
  const tidy = async (): Promise<void> => {
    const at = now()
    await forgetJobs(store.database, { finishedBefore: new Date(at.getTime() - JOBS_KEPT_MS) })
    const unusedSince = new Date(at.getTime() - FORECASTS_KEPT_MS)
    await forgetOldForecasts(store.database, { unusedSince, version: FORECAST_VERSION })
    await forgetPhotos(store.database, { cameBefore: new Date(at.getTime() - PHOTOS_KEPT_MS) })
    await forgetPeople(store.database, { at })
    await clearBlobs(store.blobs, { at })
  }
  const tidying = setInterval(() => void tidy().catch(onTrouble), DAY_MS)
  const firstTidying = setTimeout(() => void tidy().catch(onTrouble), FIRST_TIDYING_MS)
  tidying.unref()
  firstTidying.unref()

  if ((await shopOrNull(store.database)) !== null) await jobs.mend(usualSetup)
  jobs.wake()
  artwork.wake()
  return {
    store,
    now,
    records: currentRecords,
    changed,
    kept: <Answer>(question: string, answer: () => Promise<Answer>): Promise<Answer> => {
      const key = `${dayOf(now())} ${question}`
      const there = answers.get(key) as Promise<Answer> | undefined
      if (there !== undefined) return there
      if (answers.size >= MOST_KEPT) answers.clear()
      const own = answers
      const fresh = answer()
      own.set(key, fresh)
      fresh.catch(() => own.delete(key))
      return fresh
    },
    jobs,
    photos,
    artwork,
    tiles,
    usualSetup,
    close: async () => {
      clearInterval(tidying)
      clearTimeout(firstTidying)
      await jobs.end()
      await photos.end()
      await artwork.end()
      await tiles.close()
      await memory.keeper.close()
      await store.close()
    },
  }
}
