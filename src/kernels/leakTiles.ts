import { kernelOf } from './kernel.ts'
import { leakTilesCode } from './leakTilesCode.ts'

/** What strips of a leak map are made with; the same arrays are used for strip after strip. */
export type LeakTiles = Readonly<{
  /** The window to fill: `high` rows of `stride` samples of the plan's table, else transmissions above 0. */
  window: Uint8Array | Float32Array
  stride: number
  /** Of the strip made last, rows of widthPx: leak codes, and the film's own transmissions coded alike. */
  codes: Uint16Array
  filmCodes: Uint16Array
  /** Folds the window's rows margin … margin + rows − 1. */
  strip: (rows: number) => void
}>

/** How a film is cut into tiles, and what each is multiplied with between the transforms. */
export type TilePlan = Readonly<{
  /** Rows and columns of the transform, powers of 2 from 64. */
  high: number
  wide: number
  /** What neighbours spill into on each side of a tile, a multiple of 8. */
  margin: number
  widthPx: number
  /** Transmissions of 256 samples; null where the window holds transmissions. */
  transmissionOf: Float32Array | null
  /** Real spectrum over high · wide, high rows of frequencies from 0. */
  filter: Float32Array
}>

/** Columns that are folded side by side; tiles begin and end at their multiples. */
export const COLUMN_GROUP = 8

/** From row to row of the window: tiles may begin at any group of columns up to the last. */
export function strideOf({ wide, widthPx }: TilePlan): number {
  return Math.ceil((widthPx + wide) / 16) * 16
}

/** Real and imaginary part of exp(−2πi k / side), k = 0 … side − 1. */
export function turnsOf(side: number): Readonly<{ cos: Float32Array; sin: Float32Array }> {
  const angles = Float64Array.from({ length: side }, (_, k) => (2 * Math.PI * k) / side)
  return {
    cos: Float32Array.from(angles, Math.cos),
    sin: Float32Array.from(angles, (angle) => -Math.sin(angle)),
  }
}

/** The frequency at each place, as radix-4 passes leave them, with one radix-2 pass where it does not go even. */
export function scrambled(side: number): Uint16Array {
  const order = new Uint16Array(side)
  for (let place = 0; place < side; place += 1) {
    let rest = place
    let step = 1
    for (let span = side; span > 1; ) {
      const parts = span === 8 ? 2 : 4
      span /= parts
      order[place] += step * Math.floor(rest / span)
      rest %= span
      step *= parts
    }
  }
  return order
}

/** Strips by machine code: the bits of the plain loops in raster/plainTiles.ts, several times as fast. */
export function leakTiles(plan: TilePlan): LeakTiles {
  const { high, wide, margin, widthPx, transmissionOf } = plan
  const { memory, call } = kernelOf(leakTilesCode)
  const stride = strideOf(plan)
  const sampleBytes = transmissionOf === null ? 4 : 1
  const turnsAt = call('layOut', high, wide, margin, widthPx, stride, sampleBytes)
  const { buffer } = memory
  const { cos, sin } = turnsOf(high)
  new Float32Array(buffer, turnsAt, 2 * high).set([...cos, ...sin])
  const along = turnsAlong(wide)
  new Float32Array(buffer, call('turnsAlongAt'), along.length).set(along)
  new Float32Array(buffer, call('filterAt'), high * wide).set(filterInOrder(plan))
  if (transmissionOf !== null) {
    new Float32Array(buffer, call('transmissionsAt'), 256).set(transmissionOf)
    call('codeSamples')
  }
  const size = (high - 2 * margin) * widthPx
  const Samples = transmissionOf === null ? Float32Array : Uint8Array
  return {
    window: new Samples(buffer, call('windowAt'), stride * high),
    stride,
    codes: new Uint16Array(buffer, call('codesAt'), size),
    filmCodes: new Uint16Array(buffer, call('filmCodesAt'), size),
    strip: (rows) => void call('strip', rows),
  }
}

/** Turns of the passes along a row, four columns at a time, in the order of their use. */
function turnsAlong(wide: number): number[] {
  const { cos, sin } = turnsOf(wide)
  const turns: number[] = []
  for (let span = wide; span > 4; span = span === 8 ? 4 : span / 4) {
    const powers = span === 8 ? [1] : [1, 2, 3]
    for (let j = 0; j < (span === 8 ? 4 : span / 4); j += 4) {
      for (const power of powers) {
        const at = [0, 1, 2, 3].map((lane) => (power * (j + lane) * wide) / span)
        turns.push(...at.map((k) => cos[k]), ...at.map((k) => sin[k]))
      }
    }
  }
  return turns
}

/** Rows in scrambled order; in a row 16 columns at a time, the first of each four, the second … */
function filterInOrder({ high, wide, filter }: TilePlan): Float32Array {
  const [down, along] = [scrambled(high), scrambled(wide)]
  const ordered = new Float32Array(high * wide)
  for (let row = 0, at = 0; row < high; row += 1) {
    const from = down[row] * wide
    for (let column = 0; column < wide; column += 1, at += 1) {
      const place = (column & ~15) + 4 * (column & 3) + ((column >> 2) & 3)
      ordered[at] = filter[from + along[place]]
    }
  }
  return ordered
}
