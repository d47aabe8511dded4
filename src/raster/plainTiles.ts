import type { LeakTiles, TilePlan } from '../kernels/leakTiles.ts'
import { fourierSquare, throughFilter } from './fourier.ts'
import { codeOfLeak, codeRow } from './leakCode.ts'

/** Strips of a leak map in plain loops: what kernels/leakTiles.ts is held to, bit by bit. */
export function plainTiles({ side, margin, widthPx, filter }: TilePlan): LeakTiles {
  const inner = side - 2 * margin
  const stride = Math.ceil(widthPx / inner) * inner + 2 * margin
  const square = fourierSquare(side)
  const values = new Float32Array(stride * side)
  const codes = new Uint16Array(inner * widthPx)
  const filmCodes = new Uint16Array(inner * widthPx)
  const line = new Float32Array(inner)
  const bits = new Uint32Array(line.buffer)

  /** The one value of a tile's window, or null. */
  const flatValue = (left: number): number | null => {
    const first = values[left]
    for (let row = 0; row < side; row += 1) {
      const start = row * stride + left
      for (let at = start; at < start + side; at += 1) {
        if (values[at] !== first) return null
      }
    }
    return first
  }

  const pair = (left: number, right: number, rows: number): void => {
    const { re, im } = square
    for (let row = 0; row < side; row += 1) {
      const from = row * stride
      const to = row * square.stride
      for (let x = 0; x < side; x += 1) {
        re[to + x] = values[from + left + x]
        im[to + x] = values[from + right + x]
      }
    }
    throughFilter(square, filter.values, { first: margin, count: rows })
    for (const [part, at] of [
      [re, left],
      [im, right],
    ] as const) {
      const count = Math.min(inner, widthPx - at)
      for (let row = 0; row < rows; row += 1) {
        const from = (row + margin) * square.stride + margin
        for (let x = 0; x < count; x += 1) {
          const value = part[from + x]
          line[x] = value > 0 ? value : 0
        }
        codeRow(bits, codes, { at: row * widthPx + at, count })
      }
      if (left === right) break
    }
  }

  const strip = (rows: number): void => {
    let waiting = -1
    for (let left = 0; left < widthPx; left += inner) {
      const flat = flatValue(left)
      if (flat !== null) {
        const code = codeOfLeak(flat)
        const count = Math.min(inner, widthPx - left)
        for (let row = 0; row < rows; row += 1) {
          const at = row * widthPx + left
          codes.fill(code, at, at + count)
        }
      } else if (waiting < 0) {
        waiting = left
      } else {
        pair(waiting, left, rows)
        waiting = -1
      }
    }
    if (waiting >= 0) pair(waiting, waiting, rows)
    for (let row = 0; row < rows; row += 1) {
      const from = (row + margin) * stride + margin
      const own = new Uint32Array(values.buffer, 4 * from, widthPx)
      codeRow(own, filmCodes, { at: row * widthPx, count: widthPx })
    }
  }
  return { values, stride, codes, filmCodes, strip }
}
