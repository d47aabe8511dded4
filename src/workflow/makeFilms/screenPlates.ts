import { type BitBand, rowBytesOf } from '../../formats/bilevel.ts'
import { type SquareCounter, squareCounter } from '../../raster/films/squareCounts.ts'
import type { FilmSize } from './filmSize.ts'
import type { Plates } from './plates.ts'

/** A place for one plate's bits until its files are written. */
export type Spool = Readonly<{
  /** Whole rows; they may be reused once the promise is kept. */
  write: (bits: Uint8Array) => Promise<void>
  /** All of them from the first on, as often as wanted. */
  bands: () => AsyncIterable<Uint8Array>
  close: () => Promise<void>
}>

/** A plate screened: its bits, and how much of it is black. */
export type Screened = Readonly<{
  coverageShare: number
  bands: () => AsyncIterable<BitBand>
}>

/** Coverage of each plate in squares of the film, for the proof. */
export type Coverage = Readonly<{
  widthPx: number
  heightPx: number
  /** Side of a square in film pixels. */
  squarePx: number
  shares: readonly Float32Array[]
}>

const PROOF_SIDE_PX = 900
const BAND_BYTES = 2 ** 18

/**
 * Screens all plates in one pass over the artwork.
 *
 * @param spools one a plate
 * @param onRow told the share of rows done
 */
export async function screenPlates(
  { plates, tones }: Plates,
  {
    size,
    spools,
    onShare,
  }: Readonly<{ size: FilmSize; spools: readonly Spool[]; onShare: (share: number) => void }>,
): Promise<Readonly<{ screened: readonly Screened[]; coverage: Coverage }>> {
  const { widthPx, heightPx } = size
  const rowBytes = rowBytesOf({ widthPx })
  const bandRows = Math.max(1, Math.floor(BAND_BYTES / rowBytes))
  const buffers = plates.map(() => new Uint8Array(bandRows * rowBytes))
  const counts = countsFor(size, plates.length)
  let [y, filled] = [0, 0]
  const flush = async (): Promise<void> => {
    for (const [at, buffer] of buffers.entries()) {
      await spools[at]?.write(buffer.subarray(0, filled * rowBytes))
    }
    filled = 0
    onShare(y / heightPx)
  }
  for await (const row of tones.rows()) {
    plates.forEach(({ screen }, at) => {
      const bits = buffers[at]?.subarray(filled * rowBytes, (filled + 1) * rowBytes)
      const plateTones = row[at]
      if (bits === undefined || plateTones === undefined) {
        throw new RangeError(`tones: expected ${plates.length} plates`)
      }
      screen.drawn(y, plateTones, bits)
      counts.counters[at]?.add(bits)
    })
    y += 1
    if (y % counts.squarePx === 0 || y === heightPx) endSquares(counts, y)
    filled += 1
    if (filled === bandRows) await flush()
  }
  if (filled > 0) await flush()
  if (y !== heightPx) throw new RangeError(`tones: expected ${heightPx} rows, got ${y}`)
  const screened = plates.map((_, at) => ({
    coverageShare: (counts.black[at] ?? 0) / (widthPx * heightPx),
    bands: () => bandsOf(spools[at], rowBytes),
  }))
  return { screened, coverage: coverageOf(counts, size) }
}

async function* bandsOf(spool: Spool | undefined, rowBytes: number): AsyncGenerator<BitBand> {
  if (spool === undefined) throw new RangeError('spools: expected one a plate')
  let rest = new Uint8Array(0)
  for await (const bytes of spool.bands()) {
    const joined = new Uint8Array(rest.length + bytes.length)
    joined.set(rest)
    joined.set(bytes, rest.length)
    const rows = Math.floor(joined.length / rowBytes)
    rest = joined.slice(rows * rowBytes)
    if (rows > 0) yield { rows, bits: joined.subarray(0, rows * rowBytes) }
  }
}

type Counts = Readonly<{
  widthPx: number
  heightPx: number
  squarePx: number
  /** Black pixels of each plate's squares, and who counts them in the rows of squares under way. */
  squares: readonly Float32Array[]
  counters: readonly SquareCounter[]
  /** Black pixels of each plate: exact up to 2^53. */
  black: number[]
}>

function countsFor({ widthPx, heightPx }: FilmSize, plates: number): Counts {
  const squarePx = Math.max(1, Math.ceil(Math.max(widthPx, heightPx) / PROOF_SIDE_PX))
  const [wide, high] = [Math.ceil(widthPx / squarePx), Math.ceil(heightPx / squarePx)]
  return {
    widthPx: wide,
    heightPx: high,
    squarePx,
    squares: Array.from({ length: plates }, () => new Float32Array(wide * high)),
    counters: Array.from({ length: plates }, () => squareCounter({ widthPx, squarePx })),
    black: Array.from({ length: plates }, () => 0),
  }
}

/** The row of squares that ends above row y of the film. */
function endSquares({ widthPx, squarePx, squares, counters, black }: Counts, y: number): void {
  const first = (Math.ceil(y / squarePx) - 1) * widthPx
  counters.forEach((counter, plate) => {
    const taken = counter.taken()
    squares[plate]?.set(taken, first)
    black[plate] = taken.reduce((sum, count) => sum + count, black[plate] ?? 0)
  })
}

function coverageOf(counts: Counts, size: FilmSize): Coverage {
  const { widthPx, heightPx, squarePx, squares } = counts
  const shares = squares.map((black) =>
    black.map((ones, at) => {
      const [x, y] = [at % widthPx, Math.floor(at / widthPx)]
      const wide = Math.min(squarePx, size.widthPx - x * squarePx)
      const high = Math.min(squarePx, size.heightPx - y * squarePx)
      return ones / (wide * high)
    }),
  )
  return { widthPx, heightPx, squarePx, shares }
}
