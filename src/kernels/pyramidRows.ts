import { kernelOf } from './kernel.ts'
import { pyramidRowsCode } from './pyramidRowsCode.ts'

/** Cells of one row of tiles, with what their bytes are too coarse to add up. */
export type CellRows = Readonly<{
  /** Four planes of codes, each of 256 rows over the film's width in whole tiles. */
  codes: Uint8Array
  /** Mark pixels of each cell, and the mean transmission of what it speaks of. */
  marks: Uint32Array
  passes: Float32Array
  /** 1 for each tile that is there. */
  made: Uint8Array
}>

/** What a pixel of clear film is: leak code and film code between these, both included. */
export type ClearCodes = Readonly<{
  leak: readonly [number, number]
  film: readonly [number, number]
  /** What stands where there is no tile. */
  code: number
}>

/** Rows of tiles on several levels; one row of each level is held at a time. */
export type PyramidRows = Readonly<{
  /** Empties all. */
  begin: () => void
  /** The next row of film pixels: leak codes and film codes. */
  pixels: (codes: Uint16Array, filmCodes: Uint16Array) => void
  /** A whole row of tiles of the first level, where that is not 0. */
  cells: (cells: CellRows) => void
  /** No further row comes: what is half of a coarser cell gets clear film beside it. */
  end: () => void
  /** A tile of the row held, null where it is clear; valid until the next is asked for. */
  tile: (level: number, x: number) => Uint8Array | null
  /** The last level's row, copied. */
  lastCells: () => CellRows
  /** The level's row has been taken. */
  clear: (level: number) => void
  /** Pixels since the beginning by leak code >> 4. */
  counts: Uint32Array
}>

const TILE_SIDE = 256
const CELLS: number = TILE_SIDE * TILE_SIDE

/** @param plan levels first … last, density byte of each code, transmission of each density byte */
export function pyramidRows(
  plan: Readonly<{
    widthPx: number
    first: number
    last: number
    markByte: number
    clear: ClearCodes
    densityOf: Uint8Array
    transmissionOf: Float32Array
  }>,
): PyramidRows {
  const { widthPx, first, last, markByte, clear } = plan
  const { memory, call } = kernelOf(pyramidRowsCode)
  const densityAt = call('layOut', widthPx, first, last)
  const { buffer } = memory
  new Uint8Array(buffer, densityAt, 65536).set(plan.densityOf)
  new Float32Array(buffer, densityAt + 65536, 256).set(plan.transmissionOf)
  const rowCodes = new Uint16Array(buffer, call('rowCodesAt'), widthPx)
  const rowFilm = new Uint16Array(buffer, call('rowFilmAt'), widthPx)
  const cellsOf = (level: number): CellRows => {
    const across = Math.ceil(widthPx / (TILE_SIDE * 2 ** level))
    const size = CELLS * across
    const marksAt = call('marksAt', level)
    return {
      codes: new Uint8Array(buffer, call('planesAt', level), 4 * size),
      marks: new Uint32Array(buffer, marksAt, size),
      passes: new Float32Array(buffer, marksAt + 4 * size, size),
      made: new Uint8Array(buffer, call('madeAt', level), across),
    }
  }
  return {
    begin: () => {
      call('begin', markByte, ...clear.leak, ...clear.film, clear.code)
    },
    pixels: (codes, filmCodes) => {
      rowCodes.set(codes)
      rowFilm.set(filmCodes)
      call('pixelRow')
    },
    cells: (cells) => {
      const held = cellsOf(first)
      held.codes.set(cells.codes)
      held.marks.set(cells.marks)
      held.passes.set(cells.passes)
      held.made.set(cells.made)
      call('foldFirst', TILE_SIDE)
    },
    end: () => {
      call('end')
    },
    tile: (level, x) => {
      const at = call('tile', level, x)
      return at === 0 ? null : new Uint8Array(buffer, at, CELLS * (level === 0 ? 3 : 6))
    },
    lastCells: () => {
      const { codes, marks, passes, made } = cellsOf(last)
      return {
        codes: codes.slice(),
        marks: marks.slice(),
        passes: passes.slice(),
        made: made.slice(),
      }
    },
    clear: (level) => {
      call('clear', level)
    },
    counts: new Uint32Array(buffer, call('countsAt'), 4096),
  }
}
