import { g4RowsCode } from './g4RowsCode.ts'
import { kernelOf } from './kernel.ts'

/** Rows of bits on their way to Group 4. */
export type G4Rows = Readonly<{
  /** Room for whole rows of packed bits, which are to be put here. */
  room: Uint8Array
  /**
   * Codes rows of the room.
   *
   * @returns the bytes that are done, which hold until the next call, and how many rows they are;
   *   where these are fewer, the others are to be coded by another call
   */
  push: (first: number, rows: number) => Readonly<{ bytes: Uint8Array; rows: number }>
  /** The end of the block; the next row is the first of a new one. */
  end: () => Uint8Array
}>

const ROOM_BYTES = 2 ** 18

/** @param runs a code for each run of white and of black, as src/formats/g4Codes.ts has them */
export function g4Rows(
  { widthPx }: Readonly<{ widthPx: number }>,
  runs: Readonly<{ white: Uint32Array; black: Uint32Array }>,
): G4Rows {
  const { memory, call, named } = kernelOf(g4RowsCode)
  const rowBytes = Math.ceil(widthPx / 8)
  const roomBytes = rowBytes * Math.max(1, Math.floor(ROOM_BYTES / rowBytes))
  const codesAt = call('layOut', widthPx, roomBytes)
  const { buffer } = memory
  new Uint32Array(buffer, codesAt, runs.white.length).set(runs.white)
  new Uint32Array(buffer, codesAt + 4 * runs.white.length, runs.black.length).set(runs.black)
  const outAt = call('outRoom')
  const push = named('push')
  return {
    room: new Uint8Array(buffer, call('rowsRoom'), roomBytes),
    push: (first, rows) => {
      const length = push(first, rows)
      return { bytes: new Uint8Array(buffer, outAt, length), rows: call('rowsTaken') }
    },
    end: () => new Uint8Array(buffer, outAt, call('end')),
  }
}
