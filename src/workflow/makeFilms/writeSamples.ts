import type { ByteSink } from '../../formats/bytes.ts'
import { type BlockDeflater, tileWriter } from '../../formats/tileStore.ts'
import { type Artwork, SAMPLES } from '../../raster/films/artwork.ts'
import { madeSmall, planesOf, spreadRow } from '../../raster/films/madeSmall.ts'

/** Artwork as it is kept for looking: tiles of stored sRGB, and the whole made small. */
export type KeptSamples = Readonly<{
  tileSide: number
  widthPx: number
  heightPx: number
  small: Readonly<{ widthPx: number; heightPx: number }>
}>

const TILE_SIDE = 512
/** The whole made small has no longer side. */
const SMALL_SIDE_PX = 720
/** Its level; the artwork's own pixels are level 0. */
const SMALL_LEVEL = 1

/**
 * Writes artwork as tiles of sRGB, planes of red, green and blue, and the whole made small. Tiles that
 * are white all over are left out. A row of tiles is in memory at a time.
 *
 * @param artwork grey or sRGB
 * @throws RangeError for CMYK
 */
export async function writeSamples(
  artwork: Artwork,
  {
    sink,
    deflater,
    onShare,
  }: Readonly<{
    sink: Pick<ByteSink, 'write'>
    deflater: BlockDeflater
    onShare: (share: number) => void
  }>,
): Promise<KeptSamples> {
  const { widthPx, heightPx, space } = artwork
  if (space === 'cmyk') throw new RangeError('artwork: expected grey or sRGB, got CMYK')
  const writer = await tileWriter({ widthPx, heightPx, tileSide: TILE_SIDE }, { sink, deflater })
  const small = madeSmall(artwork, { longestPx: SMALL_SIDE_PX })
  const kept = new Uint8Array(3 * widthPx * Math.min(TILE_SIDE, heightPx))
  let [y, filled] = [0, 0]
  const flush = async (): Promise<void> => {
    const row = Math.floor((y - 1) / TILE_SIDE)
    for (let column = 0; column * TILE_SIDE < widthPx; column++) {
      const from = column * TILE_SIDE
      const wide = Math.min(TILE_SIDE, widthPx - from)
      const tile = planesOf(kept, { widthPx, rows: filled, from, wide })
      if (tile !== null) await writer.put({ level: 0, x: column, y: row }, tile)
    }
    filled = 0
    onShare(y / heightPx)
  }
  for await (const { rows, samples } of artwork.bands()) {
    for (let at = 0; at < rows; at++) {
      const line = kept.subarray(3 * widthPx * filled, 3 * widthPx * (filled + 1))
      spreadRow(samples, { from: at * widthPx * SAMPLES[space], each: SAMPLES[space] }, line)
      small.take(line, y)
      y += 1
      filled += 1
      if (filled === TILE_SIDE) await flush()
    }
  }
  if (y !== heightPx) throw new RangeError(`artwork: expected ${heightPx} rows, got ${y}`)
  if (filled > 0) await flush()
  await writer.put({ level: SMALL_LEVEL, x: 0, y: 0 }, small.planes())
  await writer.finish()
  const { widthPx: smallWidthPx, heightPx: smallHeightPx } = small
  return {
    tileSide: TILE_SIDE,
    widthPx,
    heightPx,
    small: { widthPx: smallWidthPx, heightPx: smallHeightPx },
  }
}
