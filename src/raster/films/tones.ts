import { keepToLimit } from '../../core/separation/inkLimit.ts'
import { type SpotTable, spotTones } from '../../core/separation/spotTable.ts'
import { greyTone, processTones, singleTone } from '../../core/separation/tones.ts'
import { filmRows, greysBytes } from '../../kernels/filmRows.ts'
import { type Artwork, SAMPLES } from './artwork.ts'

/** A tone 0 … 65 535 of each plate at each pixel of a row. */
export type ToneRow = readonly Uint16Array[]

/** Rows of tones from top to bottom; a row holds until the next is asked for. */
export type Tones = Readonly<{
  plates: number
  widthPx: number
  heightPx: number
  /** @param from the first row wanted, 0 unless told otherwise */
  rows: (from?: number) => AsyncIterable<ToneRow>
}>

/** Fills a row of tones from a row of samples. */
type Convert = (samples: Uint8Array, into: ToneRow) => void

/** A row of tones, and what fills it. */
type Filled = Readonly<{ into: ToneRow; fill: (samples: Uint8Array) => void }>

/**
 * One ink: 1 − grey value.
 *
 * @param table what becomes of each tone; null: nothing
 */
export function singleTones(artwork: Artwork, table: Uint16Array | null = null): Tones {
  const greys = table === null ? GREY_TONES : GREY_TONES.map((tone) => table[tone])
  if (artwork.space === 'grey') return filled(artwork, 1, () => greysFilled(artwork, greys))
  return converted(artwork, 1, (samples, [into]) => {
    if (into === undefined) return
    for (let x = 0, at = 0; x < into.length; x++, at += 3) {
      into[x] = singleTone(samples[at], samples[at + 1], samples[at + 2])
    }
    if (table !== null) lookedUp(into, table, into)
  })
}

const GREY_TONES = Uint16Array.from({ length: 256 }, (_, grey) => greyTone(grey))

/** Each tone by a table; `into` may be the tones themselves. */
export function lookedUp(tones: Uint16Array, table: Uint16Array, into: Uint16Array): void {
  for (let x = 0; x < into.length; x++) into[x] = table[tones[x]]
}

/** By machine code. */
function greysFilled({ widthPx }: Artwork, table: Uint16Array): Filled {
  const greys = filmRows({ roomBytes: greysBytes(widthPx) }).greys(widthPx, table)
  if (greys === null) throw new RangeError('greys: expected the room they were given')
  return { into: [greys.tones], fill: greys.take }
}

/**
 * Four inks: those of a CMYK picture untouched, else by the conversion of PDF.
 *
 * @param coverage the most ink at one place, in solids; null: as it comes
 */
export function processPlates(artwork: Artwork, coverage: number | null = null): Tones {
  const one = new Uint16Array(4)
  return converted(artwork, 4, (samples, into) => {
    const width = artwork.widthPx
    for (let x = 0; x < width; x++) {
      if (artwork.space === 'cmyk') {
        for (let ink = 0; ink < 4; ink++) one[ink] = 257 * samples[4 * x + ink]
      } else {
        const at = artwork.space === 'grey' ? x : 3 * x
        const [green, blue] = artwork.space === 'grey' ? [at, at] : [at + 1, at + 2]
        processTones([samples[at], samples[green], samples[blue]], one)
      }
      if (coverage !== null) keepToLimit(one, coverage)
      for (let ink = 0; ink < 4; ink++) into[ink][x] = one[ink]
    }
  })
}

/** As many inks as the table has; a colour that was met is not worked out again. */
export function spotPlates(artwork: Artwork, table: SpotTable): Tones {
  const { inks } = table
  const met = new Int32Array(COLOURS_KEPT).fill(-1)
  const kept = new Uint16Array(COLOURS_KEPT * inks)
  const one = new Uint16Array(inks)
  const samplesEach = SAMPLES[artwork.space]
  const [green, blue] = samplesEach === 1 ? [0, 0] : [1, 2]
  return converted(artwork, inks, (samples, into) => {
    for (let x = 0, at = 0; x < artwork.widthPx; x++, at += samplesEach) {
      const [r, g, b] = [samples[at], samples[at + green], samples[at + blue]]
      const colour = (r << 16) | (g << 8) | b
      const place = Math.imul(colour, 0x9e37_79b1) >>> PLACE_SHIFT
      if (met[place] !== colour) {
        spotTones(table, [r, g, b], one)
        kept.set(one, place * inks)
        met[place] = colour
      }
      for (let ink = 0; ink < inks; ink++) into[ink][x] = kept[place * inks + ink]
    }
  })
}

const COLOURS_KEPT = 2 ** 16
const PLACE_SHIFT = 16

function converted(artwork: Artwork, plates: number, convert: Convert): Tones {
  return filled(artwork, plates, () => {
    const into = emptyRow({ plates, widthPx: artwork.widthPx })
    return { into, fill: (samples) => convert(samples, into) }
  })
}

function filled(artwork: Artwork, plates: number, begin: () => Filled): Tones {
  const { widthPx, heightPx } = artwork
  async function* bands(from: number): AsyncGenerator<ToneRows> {
    const { into, fill } = begin()
    let top = 0
    for await (const { rows, samples } of artwork.bands()) {
      const length = samples.length / rows
      const first = Math.max(0, from - top)
      top += rows
      if (first >= rows) continue
      const row = (at: number): ToneRow => {
        const begins = (first + at) * length
        fill(samples.subarray(begins, begins + length))
        return into
      }
      yield { rows: rows - first, row }
    }
  }
  async function* rows(from = 0): AsyncGenerator<ToneRow> {
    for await (const band of bands(from)) {
      for (let at = 0; at < band.rows; at++) yield band.row(at)
    }
  }
  const tones: Tones = { plates, widthPx, heightPx, rows }
  BANDS.set(tones, bands)
  return tones
}

/** Rows that are there without waiting, asked for in order; each holds until the next is. */
export type ToneRows = Readonly<{ rows: number; row: (at: number) => ToneRow }>

/** Of tones that come in bands. */
const BANDS = new WeakMap<Tones, (from: number) => AsyncIterable<ToneRows>>()

/** Rows of tones from one on, as many at once as there are. */
export async function* toneBands(tones: Tones, from: number): AsyncGenerator<ToneRows> {
  const bands = BANDS.get(tones)
  if (bands !== undefined) {
    yield* bands(from)
    return
  }
  for await (const row of tones.rows(from)) yield { rows: 1, row: () => row }
}

export function emptyRow({
  plates,
  widthPx,
}: Readonly<{ plates: number; widthPx: number }>): ToneRow {
  return Array.from({ length: plates }, () => new Uint16Array(widthPx))
}

/** One plate that is as dark as paper, inks and chance leave nothing uncovered: 1 − Π (1 − a). */
export function underAll(tones: Tones): Tones {
  const { widthPx, heightPx } = tones
  async function* rows(from = 0): AsyncGenerator<ToneRow> {
    const into = new Uint16Array(widthPx)
    for await (const row of tones.rows(from)) {
      coverAll(row, into)
      yield [into]
    }
  }
  return { plates: 1, widthPx, heightPx, rows }
}

/** What a row of plates covers together, where their dots fall on each other by chance. */
export function coverAll(row: ToneRow, into: Uint16Array): void {
  for (let x = 0; x < into.length; x++) {
    let bare = 1
    for (const plate of row) bare *= 1 - plate[x] / 0xffff
    into[x] = Math.round((1 - bare) * 0xffff)
  }
}

/** The plates of two, row by row. */
export function joinedPlates(first: Tones, second: Tones): Tones {
  const { widthPx, heightPx } = first
  async function* rows(from = 0): AsyncGenerator<ToneRow> {
    const others = second.rows(from)[Symbol.asyncIterator]()
    for await (const row of first.rows(from)) {
      const { value, done } = await others.next()
      if (done === true) throw new RangeError('rows: expected as many of both')
      yield [...row, ...value]
    }
    await others.return?.()
  }
  return { plates: first.plates + second.plates, widthPx, heightPx, rows }
}

/** One plate made as dark as another picture of it is, where that is darker. */
export function darkened(
  tones: Tones,
  { plate, tones: other }: Readonly<{ plate: number; tones: Tones }>,
): Tones {
  async function* rows(from = 0): AsyncGenerator<ToneRow> {
    const both = joinedPlates(tones, other)
    for await (const row of both.rows(from)) {
      darken(row[plate], row[tones.plates])
      yield row.slice(0, tones.plates)
    }
  }
  return { ...tones, rows }
}

function darken(into: Uint16Array, by: Uint16Array): void {
  for (let x = 0; x < into.length; x++) if (by[x] > into[x]) into[x] = by[x]
}
