import { enlargerBytes } from '../../kernels/enlarger.ts'
import { filmRows } from '../../kernels/filmRows.ts'
import { type Pattern, patternBytes } from '../../kernels/patternRows.ts'
import { type Enlargement, enlargementOf } from './enlarge.ts'
import type { Screen } from './screen.ts'
import { type ToneRows, type Tones, toneBands } from './tones.ts'

/** Rows of bits of each plate, whole bytes a row; they hold until the next band is asked for. */
export type ScreenedBand = Readonly<{ rows: number; bits: readonly Uint8Array[] }>

export type BandRange = Readonly<{ from: number; to: number; bandRows: number }>

/**
 * Rows from … to of a film, drawn by a screen for each plate of tones that went through its table.
 * Enlarged tones are drawn as they are made, several rows at once, where all screens have patterns.
 *
 * @throws RangeError where there are fewer rows, or not as many plates as screens
 */
export function screenedBands(
  tones: Tones,
  { screens, ...range }: Readonly<{ screens: readonly Screen[] }> & BandRange,
): AsyncIterable<ScreenedBand> {
  if (tones.plates !== screens.length) {
    throw new RangeError(`tones: expected ${screens.length} plates, got ${tones.plates}`)
  }
  const enlargement = enlargementOf(tones)
  const patterns = screens.flatMap(({ pattern }) => pattern ?? [])
  return enlargement === null || patterns.length < screens.length
    ? rowByRow(tones, screens, range)
    : asEnlarged(enlargement, patterns, range)
}

async function* rowByRow(
  tones: Tones,
  screens: readonly Screen[],
  { from, to, bandRows }: BandRange,
): AsyncGenerator<ScreenedBand> {
  const rowBytes = Math.ceil(tones.widthPx / 8)
  const bands = screens.map(() => new Uint8Array(bandRows * rowBytes))
  let [y, rows] = [from, 0]
  for await (const row of tones.rows(from)) {
    for (let plate = 0; plate < screens.length; plate++) {
      const bits = bands[plate].subarray(rows * rowBytes, (rows + 1) * rowBytes)
      screens[plate].drawn(y, row[plate], bits)
    }
    y += 1
    rows += 1
    if (rows < bandRows && y < to) continue
    yield bandOf(bands, rows, rowBytes)
    rows = 0
    if (y === to) return
  }
  throw lackingRows(to, y)
}

async function* asEnlarged(
  { source, plan, downs }: Enlargement,
  patterns: readonly Pattern[],
  { from, to, bandRows }: BandRange,
): AsyncGenerator<ScreenedBand> {
  const widthPx = plan.lefts.length
  const { plates, heightPx } = source
  const bandPlan = { widthPx, bandRows, parts: downs.parts }
  const roomBytes = patterns.reduce(
    (sum, pattern) => sum + patternBytes(pattern, bandPlan),
    enlargerBytes(plan, plates),
  )
  const enlarger = filmRows({ roomBytes }).enlarger(plan, plates)
  const drawers = patterns.map((pattern, plate) => enlarger?.drawer(plate, pattern, bandPlan))
  const bands = drawers.flatMap((drawer) => drawer?.bits ?? [])
  if (bands.length < patterns.length) {
    throw new RangeError('bands: expected the room they were given')
  }
  const rowBytes = Math.ceil(widthPx / 8)
  const { lefts } = downs
  let [y, rows, lowerAt] = [from, 0, lefts[from] - 1]
  const isFull = (): boolean => rows === bandRows || y === to
  /** Draws the rows that lie above the last one taken, if any, as far as the band has room. */
  const drawRun = (): void => {
    const left = lefts[y]
    if (Math.min(left + 1, heightPx - 1) > lowerAt) return
    const most = Math.min(to, y + bandRows - rows)
    let end = y + 1
    while (end < most && lefts[end] === left) end += 1
    const run = { at: rows, y, rows: end - y, isLast: lowerAt === left }
    for (const drawer of drawers) drawer?.draw(run)
    rows += end - y
    y = end
  }
  /** Takes rows until the band is full, or there are no more. @returns how many are taken */
  const fill = (taken: ToneRows, first: number): number => {
    let at = first
    for (;;) {
      const before = y
      drawRun()
      if (isFull()) return at
      if (y > before) continue
      if (at === taken.rows) return at
      const row = taken.row(at)
      for (let plate = 0; plate < plates; plate++) enlarger?.take(plate, row[plate])
      at += 1
      lowerAt += 1
    }
  }
  for await (const taken of toneBands(source, lefts[from])) {
    let at = fill(taken, 0)
    while (isFull()) {
      yield bandOf(bands, rows, rowBytes)
      if (y === to) return
      rows = 0
      at = fill(taken, at)
    }
  }
  throw lackingRows(to, y)
}

function bandOf(bands: readonly Uint8Array[], rows: number, rowBytes: number): ScreenedBand {
  return { rows, bits: bands.map((bits) => bits.subarray(0, rows * rowBytes)) }
}

function lackingRows(to: number, y: number): RangeError {
  return new RangeError(`tones: expected ${to} rows, got ${y}`)
}
