import type { Hono } from 'hono'
import { Failure } from '../../core/failure.ts'
import type { ShopDoor } from '../door.ts'
import type { TilePlace } from '../films/tileShelf.ts'
import { TILE_PATH } from '../http/openapi.ts'

const FOREVER = 'private, max-age=31536000, immutable'
const MOST_PLACE = 100_000

/** Tiles are bytes: they are as they are for good, for a forecast's name names one content. */
export function addTiles(app: Hono, door: ShopDoor): void {
  app.get(TILE_PATH.replaceAll(/\{(\w+)\}/g, ':$1'), async (context) => {
    const {
      forecast = '',
      level = '',
      x = '',
      y = '',
    } = context.req.param() as Record<string, string>
    const place: TilePlace = { level: whole(level), x: whole(x), y: whole(y) }
    const etag = `"${forecast}-${level}-${x}-${y}"`
    const known = { etag, 'cache-control': FOREVER }
    if (context.req.header('if-none-match') === etag) return context.body(null, 304, known)
    const bytes = await door.shop().tiles.tile(forecast, place)
    if (bytes === null) return context.body(null, 204, known)
    return context.body(new Uint8Array(bytes), 200, {
      ...known,
      'content-type': 'application/octet-stream',
    })
  })
}

function whole(text: string): number {
  const value = /^\d{1,6}$/.test(text) ? Number(text) : Number.NaN
  if (value <= MOST_PLACE) return value
  throw new Failure('not found', 'A tile’s place is three whole numbers: level, x and y.')
}
