import { kernelOf } from './kernel.ts'
import { markLookCode } from './markLookCode.ts'

/** How wide a film is, how many rows of it are held and looked at, and how deep a look goes. */
export type MarkLookPlan = Readonly<{
  widthPx: number
  held: number
  looked: number
  /** Distance past which the edge of a mark no longer matters. */
  limitPx: number
}>

/** Rows of a film that are held, and what of marks is found in them; the same arrays row after row. */
export type MarkLook = Readonly<{
  /** Film codes of the rows held, `stride` apart: filled before `mask`. */
  film: Uint16Array
  stride: number
  /** Takes a row held as it stands in `film`: a mark where the code is below this one. */
  mask: (row: number, belowCode: number) => void
  /** Lets the first rows go: of `count` held the others move to the beginning. */
  drop: (gone: number, count: number) => void
  /** Looks for the nearest ground of rows first … first + count − 1 of the `rows` held. */
  look: (span: Readonly<{ first: number; count: number; rows: number }>) => void
  /**
   * Finds a row's marks: `held` counted in the rows held, `row` in the `rows` looked at. Returns how
   * many runs it has.
   *
   * @param throughDeep whether pixels with no ground within the limit stand for an axis
   */
  row: (
    place: Readonly<{ held: number; row: number; rows: number }>,
    throughDeep: boolean,
  ) => number
  /** Two a run: its first and its last pixel. */
  spans: Int32Array
  /** Two a run: its pixel furthest from the ground, and how far, squared and up to the limit. */
  deepest: Int32Array
  /** Axis points in each run; of each the column and the mark's width there. */
  points: Int32Array
  columns: Int32Array
  widths: Float32Array
}>

/** Looks by machine code: what raster/plainMarkLook.ts finds, in a third of the time. */
export function markLook({ widthPx, held, looked, limitPx }: MarkLookPlan): MarkLook {
  const { memory, call, named } = kernelOf(markLookCode)
  const filmAt = call('layOut', widthPx, held, looked, limitPx)
  const { buffer } = memory
  const stride = Math.ceil(widthPx / 16) * 16
  const marksOfRow = named('marksOfRow')
  const maskRow = named('maskRow')
  return {
    film: new Uint16Array(buffer, filmAt, stride * held),
    stride,
    mask: (row, belowCode) => void maskRow(row, belowCode),
    drop: (gone, count) => void call('drop', gone, count),
    look: ({ first, count, rows }) => void call('near', first, count, rows),
    row: (place, throughDeep) => marksOfRow(place.held, place.row, place.rows, throughDeep ? 1 : 0),
    spans: new Int32Array(buffer, call('spansAt'), 2 * stride),
    deepest: new Int32Array(buffer, call('deepestAt'), 2 * stride),
    points: new Int32Array(buffer, call('pointsAt'), stride),
    columns: new Int32Array(buffer, call('columnsAt'), stride),
    widths: new Float32Array(buffer, call('axisAt'), stride),
  }
}
