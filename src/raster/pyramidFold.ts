import { codeRow } from './leakCode.ts'
import {
  CELL_PLANES,
  CLEAR_DENSITY,
  clearTile,
  densityByteOfCodes,
  densityOfByte,
  PIXEL_PLANES,
  TILE_SIDE,
} from './tiles.ts'

/** A tile in the making, with what its own bytes are too coarse to add up. */
export type GrowingTile = Readonly<{
  bytes: Uint8Array
  /** Mark pixels of each cell; empty on level 0. */
  marks: Uint32Array
  /** Mean film transmission of what each cell speaks of; empty on level 0. */
  passes: Float32Array
  cellPx: number
}>

const CELLS: number = TILE_SIDE * TILE_SIDE
const HALF: number = TILE_SIDE / 2
const PIXEL_FILM: number = PIXEL_PLANES.film * CELLS
/** Where the highest of a cell's four codes stand. */
const HIGHEST: number = 3 * CELLS
const FILM: number = CELL_PLANES.film * CELLS
const MARKS: number = CELL_PLANES.marks * CELLS
const DENSITY_OF: Uint8Array = densityByteOfCodes()
const TRANSMISSION: Float32Array = new Float32Array(256).map(
  (_, byte) => 10 ** -densityOfByte(byte),
)

export function growingTile(level: number): GrowingTile {
  const size = level === 0 ? 0 : CELLS
  return {
    bytes: clearTile(level),
    marks: new Uint32Array(size),
    passes: new Float32Array(size).fill(TRANSMISSION[CLEAR_DENSITY]),
    cellPx: 2 ** level,
  }
}

type Quarter = Readonly<{ x: number; y: number }>

/**
 * Level 0 into a quarter of a tile of level 1. Exact for one, two and four mark pixels; of three
 * the middle one's code counts for two quarters. Ground has its mean code.
 */
export function foldPixels(
  child: GrowingTile,
  parent: GrowingTile,
  { quarter, markByte }: Readonly<{ quarter: Quarter; markByte: number }>,
): void {
  const { bytes } = child
  const line = new Uint16Array(HALF)
  for (let row = 0; row < HALF; row += 1) {
    const start = (row + quarter.y * HALF) * TILE_SIDE + quarter.x * HALF
    for (let column = 0; column < HALF; column += 1) {
      const a = 2 * row * TILE_SIDE + 2 * column
      const c = a + TILE_SIDE
      const filmA = bytes[PIXEL_FILM + a]
      const filmB = bytes[PIXEL_FILM + a + 1]
      const filmC = bytes[PIXEL_FILM + c]
      const filmD = bytes[PIXEL_FILM + c + 1]
      const inMark =
        (filmA >= markByte ? 1 : 0) |
        (filmB >= markByte ? 2 : 0) |
        (filmC >= markByte ? 4 : 0) |
        (filmD >= markByte ? 8 : 0)
      let codeA = bytes[a]
      let codeB = bytes[a + 1]
      let codeC = bytes[c]
      let codeD = bytes[c + 1]
      const to = start + column
      if (
        codeA === codeB &&
        codeC === codeD &&
        codeA === codeC &&
        filmA === filmB &&
        filmC === filmD &&
        filmA === filmC
      ) {
        parent.bytes[to] = codeA
        parent.bytes[CELLS + to] = codeA
        parent.bytes[2 * CELLS + to] = codeA
        parent.bytes[3 * CELLS + to] = codeA
        parent.marks[to] = inMark === 0 ? 0 : 4
        parent.passes[to] = TRANSMISSION[filmA]
        continue
      }
      let passes = 0
      let marks = 4
      if (inMark === 0) {
        marks = 0
        codeA = (codeA + codeB + codeC + codeD + 2) >> 2
        codeB = codeA
        codeC = codeA
        codeD = codeA
      } else if (inMark < 15) {
        // ground's codes are put above every code, so the marks' come first in rising order
        if ((inMark & 1) === 0) codeA = 256
        if ((inMark & 2) === 0) codeB = 256
        if ((inMark & 4) === 0) codeC = 256
        if ((inMark & 8) === 0) codeD = 256
        marks = COUNT_OF[inMark]
      }
      const lowAB = Math.min(codeA, codeB)
      const highAB = Math.max(codeA, codeB)
      const lowCD = Math.min(codeC, codeD)
      const highCD = Math.max(codeC, codeD)
      const upper = Math.max(lowAB, lowCD)
      const lower = Math.min(highAB, highCD)
      codeA = Math.min(lowAB, lowCD)
      codeB = Math.min(upper, lower)
      codeC = Math.max(upper, lower)
      codeD = Math.max(highAB, highCD)
      if (inMark === 0 || inMark === 15) {
        passes =
          (TRANSMISSION[filmA] + TRANSMISSION[filmB] + TRANSMISSION[filmC] + TRANSMISSION[filmD]) /
          4
      } else {
        if ((inMark & 1) !== 0) passes += TRANSMISSION[filmA]
        if ((inMark & 2) !== 0) passes += TRANSMISSION[filmB]
        if ((inMark & 4) !== 0) passes += TRANSMISSION[filmC]
        if ((inMark & 8) !== 0) passes += TRANSMISSION[filmD]
        passes /= marks
        if (marks === 1) codeB = codeA
        codeD = marks === 3 ? codeC : codeB
        codeC = codeB
        if (marks === 2) codeB = codeA
      }
      parent.bytes[to] = codeA
      parent.bytes[CELLS + to] = codeB
      parent.bytes[2 * CELLS + to] = codeC
      parent.bytes[3 * CELLS + to] = codeD
      parent.marks[to] = marks
      parent.passes[to] = passes
    }
    finishRow(parent, start, line)
  }
}

const COUNT_OF: Uint8Array = Uint8Array.from({ length: 16 }, (_, set) =>
  [1, 2, 4, 8].reduce((count, bit) => count + ((set & bit) === 0 ? 0 : 1), 0),
)

/**
 * A level into a quarter of a tile of the next: each child's codes weigh a quarter of its mark
 * pixels, and the parent's are those at 1/8, 3/8, 5/8 and 7/8 of all that weight. Ground has its
 * mean code.
 */
export function foldCells(
  child: GrowingTile,
  parent: GrowingTile,
  { quarter }: Readonly<{ quarter: Quarter }>,
): void {
  const { bytes, marks, passes } = child
  const sorter = codeSorter()
  const line = new Uint16Array(HALF)
  for (let row = 0; row < HALF; row += 1) {
    const start = (row + quarter.y * HALF) * TILE_SIDE + quarter.x * HALF
    for (let column = 0; column < HALF; column += 1) {
      const a = 2 * row * TILE_SIDE + 2 * column
      const c = a + TILE_SIDE
      const to = start + column
      const total = marks[a] + marks[a + 1] + marks[c] + marks[c + 1]
      parent.marks[to] = total
      if (total === 0) {
        const code = (bytes[a] + bytes[a + 1] + bytes[c] + bytes[c + 1] + 2) >> 2
        for (let plane = 0; plane < 4; plane += 1) parent.bytes[plane * CELLS + to] = code
        parent.passes[to] = (passes[a] + passes[a + 1] + passes[c] + passes[c + 1]) / 4
        continue
      }
      parent.passes[to] =
        (marks[a] * passes[a] +
          marks[a + 1] * passes[a + 1] +
          marks[c] * passes[c] +
          marks[c + 1] * passes[c + 1]) /
        total
      const code = bytes[a]
      if (
        code === bytes[HIGHEST + a] &&
        code === bytes[a + 1] &&
        code === bytes[HIGHEST + a + 1] &&
        code === bytes[c] &&
        code === bytes[HIGHEST + c] &&
        code === bytes[c + 1] &&
        code === bytes[HIGHEST + c + 1]
      ) {
        for (let plane = 0; plane < 4; plane += 1) parent.bytes[plane * CELLS + to] = code
        continue
      }
      sorter.clear()
      sorter.add(bytes, a, marks[a])
      sorter.add(bytes, a + 1, marks[a + 1])
      sorter.add(bytes, c, marks[c])
      sorter.add(bytes, c + 1, marks[c + 1])
      sorter.quarters(total, parent.bytes, to)
    }
    finishRow(parent, start, line)
  }
}

/** Sorts the weighted codes of up to four cells. */
function codeSorter() {
  const codes = new Int32Array(16)
  const weights = new Int32Array(16)
  let count = 0
  return {
    clear: (): void => {
      count = 0
    },
    add: (bytes: Uint8Array, cell: number, weight: number): void => {
      if (weight === 0) return
      for (let plane = 0; plane < 4; plane += 1) {
        const code = bytes[plane * CELLS + cell]
        let place = count
        while (place > 0 && codes[place - 1] > code) {
          codes[place] = codes[place - 1]
          weights[place] = weights[place - 1]
          place -= 1
        }
        codes[place] = code
        weights[place] = weight
        count += 1
      }
    },
    /** The codes at 1/8, 3/8, 5/8, 7/8 of the weight, into four planes. */
    quarters: (total: number, target: Uint8Array, to: number): void => {
      let place = 0
      let sum = weights[0]
      for (let at = 0; at < 4; at += 1) {
        while (2 * sum <= (2 * at + 1) * total) {
          place += 1
          sum += weights[place]
        }
        target[at * CELLS + to] = codes[place]
      }
    },
  }
}

/** Film density and share of marks of a row of cells just folded. */
function finishRow(
  { bytes, marks, passes, cellPx }: GrowingTile,
  from: number,
  codes: Uint16Array,
): void {
  codeRow(new Uint32Array(passes.buffer, 4 * from, HALF), codes, { at: 0, count: HALF })
  const area = cellPx * cellPx
  for (let at = 0; at < HALF; at += 1) {
    const cell = from + at
    bytes[FILM + cell] = DENSITY_OF[codes[at]]
    const share = (255 * marks[cell]) / area
    bytes[MARKS + cell] = share > 0 && share < 1 ? 1 : share + 0.5
  }
}
