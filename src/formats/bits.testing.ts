import type { BitBand } from './bilevel.ts'

/** Bits of a picture as a function of the pixel, for tests. */
export type Pixels = (x: number, y: number) => boolean
export type Size = Readonly<{ widthPx: number; heightPx: number }>

/** Rows of packed bits, the first pixel highest, 1 for black, zeros past the width. */
export function packedRows({ widthPx, heightPx }: Size, black: Pixels): Uint8Array {
  const rowBytes = Math.ceil(widthPx / 8)
  const bits = new Uint8Array(rowBytes * heightPx)
  for (let y = 0; y < heightPx; y++) {
    for (let x = 0; x < widthPx; x++) {
      if (black(x, y))
        bits[y * rowBytes + (x >> 3)] = (bits[y * rowBytes + (x >> 3)] ?? 0) | (128 >> (x & 7))
    }
  }
  return bits
}

export function* bandsOf(
  bits: Uint8Array,
  { heightPx }: Size,
  rowsEach: number,
): Generator<BitBand> {
  const rowBytes = bits.length / heightPx
  for (let top = 0; top < heightPx; top += rowsEach) {
    const end = Math.min(heightPx, top + rowsEach)
    yield { rows: end - top, bits: bits.subarray(top * rowBytes, end * rowBytes) }
  }
}

/** Numbers 0 … 1 from a seed (a linear congruential generator is random enough for pictures). */
export function seeded(seed: number): () => number {
  let state = seed >>> 0
  return () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0
    return state / 2 ** 32
  }
}
