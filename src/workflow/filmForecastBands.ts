import type { TileStore } from '../formats/tileStore.ts'
import type { LeakBand } from '../raster/leakMap.ts'
import { pixelRows } from '../raster/tilesRows.ts'

/** Decompresses a whole zlib stream; handed in because this layer knows no platform. */
export type Inflate = (bytes: Uint8Array) => Promise<Uint8Array>

/**
 * The leak map again, from the stored picture of a film: codes to twelve bits, the film's own
 * density to 0.02. So findings need neither the film nor its folding a second time.
 *
 * @throws Failure 'unreadable file' where the store is damaged
 */
export async function* storedBands(
  store: TileStore,
  { inflate }: Readonly<{ inflate: Inflate }>,
): AsyncGenerator<LeakBand> {
  const rows = pixelRows(store)
  for (let y = 0; y < rows.down; y += 1) {
    const tiles = await Promise.all(
      Array.from({ length: rows.across }, async (_, x) => {
        const bytes = await store.tile({ level: 0, x, y })
        return bytes === null ? null : inflate(bytes)
      }),
    )
    yield rows.band(y, tiles)
  }
}
