import { tilePath } from '../../api/paths.ts'
import type { TilePlace } from '../../raster/tiles.ts'
import { inflatedBytes } from '../../workflow/filmForecastView.ts'

/** The tiles of one forecast that have come, fetched as they are wanted. */
export type FilmTiles = Readonly<{
  /** Its planes; null where the film is clear, undefined while it has not come. */
  at: (place: TilePlace) => Uint8Array | null | undefined
  /** What is looked at now: fetched in this order, before all else; the rest is no longer waited for. */
  want: (who: string, places: readonly TilePlace[]) => void
  stop: () => void
}>

/** Tiles on their way at a time, and kept at most. */
const AT_ONCE = 6
const MOST_KEPT = 140
/** A tile that did not come is asked for again after so long. */
const AGAIN_MS = 2000

const nameOf = ({ level, x, y }: TilePlace): string => `${level}/${x}/${y}`

/** @param onTile told after each tile that came */
export function filmTiles(forecast: string, onTile: () => void): FilmTiles {
  const kept = new Map<string, Uint8Array | null>()
  const coming = new Set<string>()
  const wanted = new Map<string, readonly TilePlace[]>()
  const stopped = new AbortController()

  const at = (place: TilePlace): Uint8Array | null | undefined => {
    const name = nameOf(place)
    const bytes = kept.get(name)
    if (bytes !== undefined) {
      kept.delete(name) // the newest stand last
      kept.set(name, bytes)
    }
    return bytes
  }

  const keep = (name: string, bytes: Uint8Array | null): void => {
    kept.set(name, bytes)
    const needed = new Set([...wanted.values()].flatMap((places) => places.map(nameOf)))
    for (const old of kept.keys()) {
      if (kept.size <= MOST_KEPT) break
      if (!needed.has(old)) kept.delete(old)
    }
  }

  const fetchOne = async (place: TilePlace): Promise<void> => {
    const name = nameOf(place)
    coming.add(name)
    try {
      keep(name, await tileBytes(tilePath(forecast, place), place.level, stopped.signal))
      onTile()
    } catch {
      if (stopped.signal.aborted) return
      await new Promise((later) => setTimeout(later, AGAIN_MS))
    } finally {
      coming.delete(name)
    }
    next()
  }

  const next = (): void => {
    if (stopped.signal.aborted) return
    for (const place of [...wanted.values()].flat()) {
      if (coming.size >= AT_ONCE) return
      const name = nameOf(place)
      if (!kept.has(name) && !coming.has(name)) void fetchOne(place)
    }
  }

  return {
    at,
    want: (who, places) => {
      wanted.set(who, places)
      next()
    },
    stop: () => stopped.abort(),
  }
}

/** @throws when it could not be fetched */
async function tileBytes(
  path: string,
  level: number,
  signal: AbortSignal,
): Promise<Uint8Array | null> {
  const response = await fetch(path, { signal })
  if (response.status === 204) return null
  if (!response.ok || response.body === null) throw new Error(`tile: ${response.status}`)
  const inflated = response.body.pipeThrough(new DecompressionStream('deflate'))
  const bytes = new Uint8Array(await new Response(inflated).arrayBuffer())
  if (bytes.length !== inflatedBytes(level)) throw new Error(`tile: ${bytes.length} bytes`)
  return bytes
}
