import { type BitBand, rowBytesOf } from '../../formats/bilevel.ts'
import { screenedBands } from '../../raster/films/screenedBands.ts'
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

/** Rows of a film, from the first up to the last, and squares that they fill. */
export type FilmRowsRange = Readonly<{ from: number; to: number }>

/** What one part of a film's rows counts, of each plate: black in all, and in squares. */
export type PartCounts = Readonly<{
  /** Exact up to 2^53. */
  black: readonly number[]
  squares: readonly Float32Array[]
}>

/** Side of the squares of the proof in film pixels. */
function squareOf({ widthPx, heightPx }: FilmSize): number {
  return Math.max(1, Math.ceil(Math.max(widthPx, heightPx) / PROOF_SIDE_PX))
}

/** A film's rows in so many parts, each of whole squares, about as high as each other. */
export function filmParts(size: FilmSize, count: number): readonly FilmRowsRange[] {
  const squarePx = squareOf(size)
  const squares = Math.ceil(size.heightPx / squarePx)
  const parts = Math.min(count, squares)
  return Array.from({ length: parts }, (_, part) => ({
    from: squarePx * Math.floor((part * squares) / parts),
    to: Math.min(size.heightPx, squarePx * Math.floor(((part + 1) * squares) / parts)),
  }))
}

/**
 * Screens all plates in one pass over a part of the film's rows, which begins with whole squares.
 *
 * @param spools one a plate
 * @param onShare told the share of rows done
 */
export async function screenPart(
  { plates, tones }: Plates,
  {
    size,
    rows: { from, to },
    spools,
    onShare,
  }: Readonly<{
    size: FilmSize
    rows: FilmRowsRange
    spools: readonly Pick<Spool, 'write'>[]
    onShare: (share: number) => void
  }>,
): Promise<PartCounts> {
  const { widthPx } = size
  const rowBytes = rowBytesOf({ widthPx })
  const bandRows = Math.max(1, Math.floor(BAND_BYTES / rowBytes))
  const counts = countsFor({ widthPx, heightPx: to - from }, { squarePx: squareOf(size), plates })
  const screens = plates.map(({ screen }) => screen)
  let y = from
  for await (const { rows, bits } of screenedBands(tones, { screens, from, to, bandRows })) {
    for (let row = 0; row < rows; row++) {
      bits.forEach((own, plate) => {
        counts.counters[plate]?.add(own.subarray(row * rowBytes, (row + 1) * rowBytes))
      })
      y += 1
      if ((y - from) % counts.squarePx === 0 || y === to) endSquares(counts, y - from)
    }
    for (const [plate, own] of bits.entries()) await spools[plate]?.write(own)
    onShare((y - from) / (to - from))
  }
  return { black: counts.black, squares: counts.squares }
}

/** Plates whose parts have been screened: their bits, and how much of them is black. */
export function screenedPlates(
  parts: readonly Readonly<{ counts: PartCounts; spools: readonly Spool[] }>[],
  { size, plates }: Readonly<{ size: FilmSize; plates: number }>,
): Readonly<{ screened: readonly Screened[]; coverage: Coverage }> {
  const { widthPx, heightPx } = size
  const rowBytes = rowBytesOf({ widthPx })
  const squarePx = squareOf(size)
  const [wide, high] = [Math.ceil(widthPx / squarePx), Math.ceil(heightPx / squarePx)]
  const all = Array.from({ length: plates }, (_, plate) => {
    const squares = new Float32Array(wide * high)
    let [at, black] = [0, 0]
    for (const { counts } of parts) {
      const own = counts.squares[plate] ?? new Float32Array(0)
      squares.set(own, at)
      at += own.length
      black += counts.black[plate] ?? 0
    }
    const spools = parts.flatMap((part) => part.spools[plate] ?? [])
    return { squares, black, bands: () => bandsOf(spools, rowBytes) }
  })
  return {
    screened: all.map(({ black, bands }) => ({
      coverageShare: black / (widthPx * heightPx),
      bands,
    })),
    coverage: coverageOf(
      { widthPx: wide, heightPx: high, squarePx, squares: all.map(({ squares }) => squares) },
      size,
    ),
  }
}

async function* bandsOf(spools: readonly Spool[], rowBytes: number): AsyncGenerator<BitBand> {
  for (const spool of spools) yield* bandsIn(spool, rowBytes)
}

async function* bandsIn(spool: Spool, rowBytes: number): AsyncGenerator<BitBand> {
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
  squarePx: number
  /** Black pixels of each plate's squares, and who counts them in the rows of squares under way. */
  squares: readonly Float32Array[]
  counters: readonly SquareCounter[]
  /** Black pixels of each plate: exact up to 2^53. */
  black: number[]
}>

function countsFor(
  { widthPx, heightPx }: Pick<FilmSize, 'widthPx' | 'heightPx'>,
  { squarePx, plates }: Readonly<{ squarePx: number; plates: readonly unknown[] }>,
): Counts {
  const [wide, high] = [Math.ceil(widthPx / squarePx), Math.ceil(heightPx / squarePx)]
  return {
    widthPx: wide,
    squarePx,
    squares: plates.map(() => new Float32Array(wide * high)),
    counters: plates.map(() => squareCounter({ widthPx, squarePx })),
    black: plates.map(() => 0),
  }
}

/** The row of squares that ends above row y of the part. */
function endSquares({ widthPx, squarePx, squares, counters, black }: Counts, y: number): void {
  const first = (Math.ceil(y / squarePx) - 1) * widthPx
  counters.forEach((counter, plate) => {
    const taken = counter.taken()
    squares[plate]?.set(taken, first)
    black[plate] = taken.reduce((sum, count) => sum + count, black[plate] ?? 0)
  })
}

function coverageOf(
  counts: Omit<Coverage, 'shares'> & Pick<Counts, 'squares'>,
  size: FilmSize,
): Coverage {
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
