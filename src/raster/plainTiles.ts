import { COLUMN_GROUP, type LeakTiles, strideOf, type TilePlan } from '../kernels/leakTiles.ts'
import { fourierTile, throughFilter } from './fourier.ts'
import { codeOfLeak, codeRow } from './leakCode.ts'

/** Strips of a leak map in plain loops: what kernels/leakTiles.ts is held to, bit by bit. */
export function plainTiles(plan: TilePlan): LeakTiles {
  const { high, wide, margin, widthPx, transmissionOf, filter } = plan
  const inner = wide - 2 * margin
  const stride = strideOf(plan)
  const tile = fourierTile(plan)
  const window =
    transmissionOf === null ? new Float32Array(stride * high) : new Uint8Array(stride * high)
  const size = (high - 2 * margin) * widthPx
  const codes = new Uint16Array(size)
  const filmCodes = new Uint16Array(size)
  const line = new Float32Array(Math.max(inner, widthPx))
  const bits = new Uint32Array(line.buffer)
  const transmissionAt = (at: number): number =>
    transmissionOf === null ? window[at] : transmissionOf[window[at]]

  /** The one sample of all that eight columns of the leak are made of, or null. */
  const flatSample = (left: number): number | null => {
    const first = window[left]
    for (let row = 0; row < high; row += 1) {
      const start = row * stride + left
      for (let at = start; at < start + COLUMN_GROUP + 2 * margin; at += 1) {
        if (window[at] !== first) return null
      }
    }
    return first
  }

  const pair = (left: number, right: number, rows: number): void => {
    const { re, im } = tile
    for (let row = 0; row < high; row += 1) {
      const from = row * stride
      for (let x = 0; x < wide; x += 1) {
        re[row * wide + x] = transmissionAt(from + left + x)
        im[row * wide + x] = transmissionAt(from + right + x)
      }
    }
    throughFilter(tile, filter)
    for (const [part, at] of [
      [re, left],
      [im, right],
    ] as const) {
      const count = Math.min(inner, widthPx - at)
      for (let row = 0; row < rows; row += 1) {
        const from = (row + margin) * wide + margin
        for (let x = 0; x < count; x += 1) line[x] = Math.max(0, part[from + x])
        codeRow(bits, codes, { at: row * widthPx + at, count })
      }
      if (left === right) break
    }
  }

  const strip = (rows: number): void => {
    let waiting = -1
    for (let left = 0; left < widthPx; ) {
      const flat = flatSample(left)
      if (flat !== null) {
        const code = codeOfLeak(transmissionOf === null ? flat : transmissionOf[flat])
        const count = Math.min(COLUMN_GROUP, widthPx - left)
        for (let row = 0; row < rows; row += 1) {
          const at = row * widthPx + left
          codes.fill(code, at, at + count)
        }
        left += COLUMN_GROUP
        continue
      }
      if (waiting < 0) {
        waiting = left
      } else {
        pair(waiting, left, rows)
        waiting = -1
      }
      left += inner
    }
    if (waiting >= 0) pair(waiting, waiting, rows)
    for (let row = 0; row < rows; row += 1) {
      const from = (row + margin) * stride + margin
      for (let x = 0; x < widthPx; x += 1) line[x] = transmissionAt(from + x)
      codeRow(bits, filmCodes, { at: row * widthPx, count: widthPx })
    }
  }
  return { window, stride, codes, filmCodes, strip }
}
