import { Failure } from '../../core/failure.ts'
import { blobFile } from '../../store/blobs/blobStore.ts'
import { forecastOrNull } from '../../store/forecasts.ts'
import type { OpenShop } from '../../store/openShop.ts'
import { openTileFile, type TileFile } from '../jobs/tileFile.ts'
import type { FilmWorkPicture } from '../jobs/work.ts'
import { forecastKeyOf } from './filmKey.ts'

export type TilePlace = Readonly<{ level: number; x: number; y: number }>

/** The tiles of forecasts; a few of them are held open. */
export type TileShelf = Readonly<{
  /**
   * The tile's zlib stream; null where the film is clear.
   *
   * @throws Failure 'not found', also for a tile that is still being made
   */
  tile: (forecast: string, place: TilePlace) => Promise<Uint8Array | null>
  /** The film is gone or read anew. */
  forget: (filmId: string) => Promise<void>
  close: () => Promise<void>
}>

type Opened = TileFile & Readonly<{ finest: number }>

const MOST_OPEN = 24

export function tileShelf(
  { database, blobs }: OpenShop,
  { now }: Readonly<{ now: () => Date }>,
): TileShelf {
  const open = new Map<string, Promise<Opened>>()

  const opened = async (forecast: string): Promise<Opened> => {
    const key = forecastKeyOf(forecast)
    const kept = key === null ? null : await forecastOrNull(database, key, { at: now() })
    if (kept === null || kept.leakBlob === null) throw noSuchForecast()
    const { path } = await blobFile(blobs, kept.leakBlob)
    const { picture } = kept.answer as unknown as FilmWorkPicture
    return { ...(await openTileFile(path)), finest: picture.pyramid.finest ?? 0 }
  }
  const shut = async (forecast: string): Promise<void> => {
    const file = open.get(forecast)
    open.delete(forecast)
    await file?.then(
      ({ close }) => close(),
      () => undefined,
    )
  }

  return {
    tile: async (forecast, place) => {
      const held = open.get(forecast)
      if (held !== undefined && (await isYetToCome(held, place))) await shut(forecast)
      const there = open.get(forecast) ?? opened(forecast)
      open.delete(forecast) // the newest stands last
      open.set(forecast, there)
      there.catch(() => open.delete(forecast))
      const { store } = await there
      if (await isYetToCome(there, place)) throw notYet()
      const bytes = await store.tile(place)
      const [oldest] = open.keys()
      if (open.size > MOST_OPEN && oldest !== undefined) await shut(oldest)
      return bytes
    },
    forget: async (filmId) => {
      for (const forecast of open.keys()) {
        if (forecast.startsWith(`${filmId}-`)) await shut(forecast)
      }
    },
    close: async () => {
      await Promise.all([...open.keys()].map(shut))
    },
  }
}

/** Finer than what this file has: another takes its place once it is made. */
async function isYetToCome(file: Promise<Opened>, { level }: TilePlace): Promise<boolean> {
  return level < (await file).finest
}

function notYet(): Failure {
  return new Failure('not found', 'The film’s finest pixels are still being made: ask again soon.')
}

function noSuchForecast(): Failure {
  const message =
    'There is no such forecast in this shop: open its film again, and it is made anew.'
  return new Failure('not found', message)
}
