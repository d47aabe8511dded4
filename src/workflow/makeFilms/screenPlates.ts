import { type BitBand, rowBytesOf } from '../../formats/bilevel.ts'
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
      count(bits, { counts, plate: at, y })
    })
    y += 1
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
  squares: readonly Float32Array[]
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
    black: Array.from({ length: plates }, () => 0),
  }
}

const ONES: Uint8Array = Uint8Array.from({ length: 256 }, (_, byte) =>
  [...byte.toString(2)].reduce((sum, digit) => sum + Number(digit), 0),
)

function count(
  bits: Uint8Array,
  { counts, plate, y }: Readonly<{ counts: Counts; plate: number; y: number }>,
): void {
  const { widthPx, squarePx, squares, black } = counts
  const row = squares[plate] ?? new Float32Array(0)
  const first = Math.floor(y / squarePx) * widthPx
  let [at, whole, before] = [0, 0, 0]
  for (let square = 0; square < widthPx; square++) {
    const end = Math.min((square + 1) * squarePx, 8 * bits.length)
    for (; at < end >> 3; at++) whole += ONES[bits[at] ?? 0] ?? 0
    // of the byte that the next square shares, what lies left of it
    const sum = whole + (ONES[(bits[at] ?? 0) & (0xff00 >> (end & 7))] ?? 0)
    row[first + square] = (row[first + square] ?? 0) + sum - before
    before = sum
  }
  black[plate] = (black[plate] ?? 0) + before
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
