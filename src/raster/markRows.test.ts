import { expect, test } from 'vitest'
import { leakOfCode } from './leakCode.ts'
import type { LeakBand } from './leakMap.ts'
import { type MarkRows, markRowFinder } from './markRows.ts'
import { plainMarkLook } from './plainMarkLook.ts'
import { seeded } from './testFilms.testing.ts'

const BELOW = 40_000

/** Blobs, bars one and two pixels wide, and grain, as bands of any codes; marks lie below BELOW. */
function bands(widthPx: number, heightPx: number, seed: number): LeakBand[] {
  const next = seeded(seed)
  const isMark = new Uint8Array(widthPx * heightPx)
  for (let blob = 0; blob < 14; blob += 1) {
    const [cx, cy, r] = [next() * widthPx, next() * heightPx, 3 + next() * 45]
    for (let at = 0; at < isMark.length; at += 1) {
      const [dx, dy] = [(at % widthPx) - cx, Math.floor(at / widthPx) - cy]
      if (Math.hypot(dx, dy) < r && (blob % 2 === 0 || next() < 0.8)) isMark[at] = 1
    }
  }
  for (let at = 0; at < isMark.length; at += 1) {
    const [x, y] = [at % widthPx, Math.floor(at / widthPx)]
    if (x % 67 < 2 || y % 89 === 0 || next() < 0.02) isMark[at] = 1
  }
  const made: LeakBand[] = []
  for (let top = 0; top < heightPx; top += 96) {
    const rows = Math.min(96, heightPx - top)
    const codes = Uint16Array.from({ length: rows * widthPx }, () => 65_535 * next())
    const filmCodes = Uint16Array.from(
      isMark.subarray(top * widthPx, (top + rows) * widthPx),
      (mark) => (mark === 1 ? BELOW * next() : BELOW + 1 + 20_000 * next()),
    )
    made.push({ top, rows, widthPx, codes, filmCodes })
  }
  return made
}

test.each([
  { widthPx: 307, heightPx: 610, limitPx: 16 },
  { widthPx: 128, heightPx: 500, limitPx: 33 },
  { widthPx: 41, heightPx: 90, limitPx: 200 },
])(
  'machine code and plain loops find the same marks: $widthPx px, to a depth of $limitPx',
  (size) => {
    const { widthPx, heightPx, limitPx } = size
    const limits = { belowTransmission: leakOfCode(BELOW), limitPx }
    const found = [undefined, plainMarkLook].map((make) => {
      const rows: MarkRows[] = []
      const finder = markRowFinder(widthPx, limits, (part) => rows.push(part), make)
      for (const band of bands(widthPx, heightPx, limitPx)) finder.push(band)
      finder.finish()
      return rows
    })
    expect(found[0]).toEqual(found[1])
    const points = found[1].reduce((sum, { columns }) => sum + columns.length, 0)
    expect(points).toBeGreaterThan(heightPx / 2)
  },
)
