import { kernelOf } from './kernel.ts'
import { leakTilesCode } from './leakTilesCode.ts'

/** What strips of a leak map are made with; the same arrays are used for strip after strip. */
export type LeakTiles = Readonly<{
  /** The window to fill: `side` rows of `stride` film transmissions, above 0. */
  values: Float32Array
  stride: number
  /** Of the strip made last, rows of widthPx: leak codes, and the film's own transmissions coded alike. */
  codes: Uint16Array
  filmCodes: Uint16Array
  /** Folds the window's rows margin … margin + rows − 1. */
  strip: (rows: number) => void
}>

/** How a film is cut into tiles, and what each is multiplied with between the transforms. */
export type TilePlan = Readonly<{
  /** Side of the transform, a power of 2 from 16. */
  side: number
  /** What neighbours spill into on each side of a tile. */
  margin: number
  widthPx: number
  /** cos and −sin of 2π k / side. */
  cos: Float64Array
  sin: Float64Array
  /** Real spectrum over side², rows and columns in scrambled order. */
  filter: Readonly<{ values: Float64Array; stride: number }>
}>

/** Strips by machine code: the bits of the plain loops in raster/plainTiles.ts, several times as fast. */
export function leakTiles({ side, margin, widthPx, cos, sin, filter }: TilePlan): LeakTiles {
  const { memory, call } = kernelOf(leakTilesCode)
  const turnsAt = call('layOut', side, margin, widthPx)
  const { buffer } = memory
  new Float64Array(buffer, turnsAt, side).set(cos)
  new Float64Array(buffer, turnsAt + 8 * side, side).set(sin)
  const weights = new Float64Array(buffer, call('filterAt'), side * side)
  for (let y = 0; y < side; y += 1) {
    for (let x = 0; x < side; x += 1) {
      weights[2 * ((x >> 1) * side + y) + (x & 1)] = filter.values[y * filter.stride + x]
    }
  }
  const inner = side - 2 * margin
  const stride = Math.ceil(widthPx / inner) * inner + 2 * margin
  return {
    values: new Float32Array(buffer, call('valuesAt'), stride * side),
    stride,
    codes: new Uint16Array(buffer, call('codesAt'), inner * widthPx),
    filmCodes: new Uint16Array(buffer, call('filmCodesAt'), inner * widthPx),
    strip: (rows) => void call('strip', rows),
  }
}
