import type { FilmBand } from '../raster/film.ts'
import { SAMPLE_BYTES, type SampleArray, type SampleType, type Unpacked } from './unpack.ts'

/** How a picture is stored against how it is to be seen. */
type Turn = Readonly<{
  /** Stored columns are the rows to be seen. */
  swapsSides: boolean
  /** Stored columns run the other way. */
  reversesColumns: boolean
  /** Stored rows run the other way. */
  reversesRows: boolean
}>

const AS_STORED: Turn = { swapsSides: false, reversesColumns: false, reversesRows: false }

/**
 * The eight ways of the Orientation tag.
 *
 * @source tiff6 (page 36, Orientation)
 */
const TURNS: readonly Turn[] = [
  AS_STORED,
  { swapsSides: false, reversesColumns: true, reversesRows: false },
  { swapsSides: false, reversesColumns: true, reversesRows: true },
  { swapsSides: false, reversesColumns: false, reversesRows: true },
  { swapsSides: true, reversesColumns: false, reversesRows: false },
  { swapsSides: true, reversesColumns: false, reversesRows: true },
  { swapsSides: true, reversesColumns: true, reversesRows: true },
  { swapsSides: true, reversesColumns: true, reversesRows: false },
]

/** Bytes of a band: large enough to read quickly, small enough to be nothing. */
const BAND_BYTES = 2 ** 20
/** Turned by a quarter, each band reads a stripe of all stored rows: fewer, larger ones. */
const TURNED_BAND_BYTES = 2 ** 24

export type Oriented = Readonly<{
  widthPx: number
  heightPx: number
  bands: () => AsyncGenerator<FilmBand>
}>

/** @param orientation 1 … 8 as the Orientation tag has it; anything else counts as 1 */
export function oriented(unpacked: Unpacked, orientation: number): Oriented {
  const turn = TURNS[orientation - 1] ?? AS_STORED
  const { widthPx, heightPx } = unpacked
  return turn.swapsSides
    ? { widthPx: heightPx, heightPx: widthPx, bands: () => turnedBands(unpacked, turn) }
    : { widthPx, heightPx, bands: () => uprightBands(unpacked, turn) }
}

async function* uprightBands(unpacked: Unpacked, turn: Turn): AsyncGenerator<FilmBand> {
  const { widthPx, heightPx, sampleType } = unpacked
  const most = rowsOf(BAND_BYTES, { widthPx, sampleType, heightPx })
  const samples = arrayOf(sampleType, most * widthPx)
  for (let top = 0; top < heightPx; top += most) {
    const rows = Math.min(most, heightPx - top)
    const band = samples.subarray(0, rows * widthPx)
    const first = turn.reversesRows ? heightPx - top - rows : top
    await unpacked.read(band, first * widthPx)
    // Both ways reversed is the whole band backwards; one way is the rows, or each row, alone.
    if (turn.reversesRows) band.reverse()
    if (turn.reversesRows !== turn.reversesColumns) {
      for (let row = 0; row < rows; row++) {
        band.subarray(row * widthPx, (row + 1) * widthPx).reverse()
      }
    }
    yield { top, rows, samples: band }
  }
}

async function* turnedBands(unpacked: Unpacked, turn: Turn): AsyncGenerator<FilmBand> {
  const { widthPx: stored, heightPx: across, sampleType } = unpacked
  const most = rowsOf(TURNED_BAND_BYTES, { widthPx: across, sampleType, heightPx: stored })
  const samples = arrayOf(sampleType, most * across)
  const stripe = arrayOf(sampleType, most)
  for (let top = 0; top < stored; top += most) {
    const rows = Math.min(most, stored - top)
    const part = stripe.subarray(0, rows)
    const first = turn.reversesColumns ? stored - top - rows : top
    for (let line = 0; line < across; line++) {
      await unpacked.read(part, line * stored + first)
      if (turn.reversesColumns) part.reverse()
      const x = turn.reversesRows ? across - 1 - line : line
      for (let row = 0; row < rows; row++) samples[row * across + x] = part[row] ?? 0
    }
    yield { top, rows, samples: samples.subarray(0, rows * across) }
  }
}

function rowsOf(
  bytes: number,
  of: Readonly<{ widthPx: number; heightPx: number; sampleType: SampleType }>,
): number {
  const rows = Math.floor(bytes / (of.widthPx * SAMPLE_BYTES[of.sampleType]))
  return Math.min(of.heightPx, Math.max(1, rows))
}

function arrayOf(sampleType: SampleType, length: number): SampleArray {
  if (sampleType === 'float') return new Float32Array(length)
  return sampleType === '16 bit' ? new Uint16Array(length) : new Uint8Array(length)
}
