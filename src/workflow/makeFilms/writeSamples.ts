import type { ByteSink } from '../../formats/bytes.ts'
import { type BlockDeflater, tileWriter } from '../../formats/tileStore.ts'
import { type Artwork, SAMPLES } from '../../raster/films/artwork.ts'
import { layRow, madeSmall, planesOf } from '../../raster/films/madeSmall.ts'

/** Artwork as it is kept for looking: its pixels in tiles, and the whole made small. */
export type KeptSamples = Readonly<{
  tileSide: number
  widthPx: number
  heightPx: number
  small: Readonly<{ widthPx: number; heightPx: number }>
  /** Left out: sRGB. Shares of four inks are told as what they leave of paper. */
  space?: 'rgb' | 'cmyk'
  /** How many inks of the artwork's own have a plane of grey behind those. */
  passing?: number
  /** Behind the inks that pass through there is more on the page. */
  hasMore?: boolean
}>

const TILE_SIDE = 512
/** The whole made small has no longer side. */
const SMALL_SIDE_PX = 720
/** Its level; the artwork's own pixels are level 0. */
const SMALL_LEVEL = 1

/**
 * Writes artwork as tiles of planes, and the whole made small: red, green and blue or four shares of
 * ink, then a grey one for each ink that passes through. Tiles that are white all over are left out. A
 * row of tiles is in memory at a time.
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
  const { widthPx, heightPx } = artwork
  const passing = artwork.passing ?? []
  const space = artwork.space === 'cmyk' ? 'cmyk' : 'rgb'
  const own = space === 'cmyk' ? 4 : 3
  const each = own + passing.length
  const writer = await tileWriter({ widthPx, heightPx, tileSide: TILE_SIDE }, { sink, deflater })
  const small = madeSmall(artwork, { longestPx: SMALL_SIDE_PX, each })
  const kept = new Uint8Array(each * widthPx * Math.min(TILE_SIDE, heightPx))
  let [y, filled] = [0, 0]
  const flush = async (): Promise<void> => {
    const row = Math.floor((y - 1) / TILE_SIDE)
    for (let column = 0; column * TILE_SIDE < widthPx; column++) {
      const from = column * TILE_SIDE
      const wide = Math.min(TILE_SIDE, widthPx - from)
      const tile = planesOf(kept, { widthPx, rows: filled, from, wide, each })
      if (tile !== null) await writer.put({ level: 0, x: column, y: row }, tile)
    }
    filled = 0
    onShare(y / heightPx)
  }
  const greys = passing.map(({ grey }) => rowsOf(grey))
  for await (const place of rowsOf(artwork)) {
    const line = kept.subarray(each * widthPx * filled, each * widthPx * (filled + 1))
    layRow(place.samples, place, line, { at: 0, wide: own, across: each })
    for (const [at, rows] of greys.entries()) {
      const { value, done } = await rows.next()
      if (done === true) throw new RangeError('passing: expected as many rows as the artwork has')
      layRow(value.samples, value, line, { at: own + at, wide: 1, across: each })
    }
    small.take(line, y)
    y += 1
    filled += 1
    if (filled === TILE_SIDE) await flush()
  }
  if (y !== heightPx) throw new RangeError(`artwork: expected ${heightPx} rows, got ${y}`)
  if (filled > 0) await flush()
  const planes = small.planes()
  await writer.put({ level: SMALL_LEVEL, x: 0, y: 0 }, planes)
  await writer.finish()
  const { widthPx: smallWidthPx, heightPx: smallHeightPx } = small
  return {
    tileSide: TILE_SIDE,
    widthPx,
    heightPx,
    small: { widthPx: smallWidthPx, heightPx: smallHeightPx },
    space,
    passing: passing.length,
    hasMore:
      passing.length > 0 && isInked(planes.subarray(0, own * small.widthPx * small.heightPx)),
  }
}

/** Values of paper are 255; smoothed edges of what passes through are a little less. */
const INKED = 160

function isInked(planes: Uint8Array): boolean {
  return planes.some((value) => value < INKED)
}

type Row = Readonly<{ samples: Uint8Array; from: number; each: number; isInk: boolean }>

async function* rowsOf({ bands, space, widthPx }: Artwork): AsyncGenerator<Row> {
  const each = SAMPLES[space]
  for await (const { rows, samples } of bands()) {
    for (let row = 0; row < rows; row++) {
      yield { samples, from: row * widthPx * each, each, isInk: space === 'cmyk' }
    }
  }
}
