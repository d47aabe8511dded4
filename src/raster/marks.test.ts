import fc from 'fast-check'
import { expect, test } from 'vitest'
import { markGatherer } from './marks.ts'

/** Sizes and row spans of touching groups by flood fill, corners included. */
function floodFill(grid: readonly (readonly boolean[])[]): string[] {
  const seen = grid.map((row) => row.map(() => false))
  const groups: string[] = []
  grid.forEach((row, y) =>
    row.forEach((dark, x) => {
      if (!dark || seen[y][x]) return
      const stack = [[x, y] as const]
      const cells: (readonly [number, number])[] = []
      seen[y][x] = true
      for (let cell = stack.pop(); cell !== undefined; cell = stack.pop()) {
        cells.push(cell)
        for (const dx of [-1, 0, 1]) {
          for (const dy of [-1, 0, 1]) {
            const [i, j] = [cell[0] + dx, cell[1] + dy]
            if (grid[j]?.[i] === true && !seen[j][i]) {
              seen[j][i] = true
              stack.push([i, j])
            }
          }
        }
      }
      const turns = Array.from({ length: 8 }, (_, at) => (Math.PI * at) / 8)
      const extents = turns.map((turn) => {
        const along = cells.map(([i, j]) => i * Math.cos(turn) + j * Math.sin(turn))
        return Math.max(...along) - Math.min(...along)
      })
      groups.push(`${cells.length} ${(Math.max(...extents) + 1).toFixed(3)}`)
    }),
  )
  return groups.sort()
}

test('oracle union-find: marks of any grid are those of a flood fill, with their extents', () => {
  const grids = fc.integer({ min: 1, max: 14 }).chain((width) =>
    fc.array(fc.array(fc.boolean(), { minLength: width, maxLength: width }), {
      minLength: 1,
      maxLength: 12,
    }),
  )
  fc.assert(
    fc.property(grids, (grid) => {
      const found: string[] = []
      const gatherer = markGatherer((mark) =>
        found.push(`${mark.axisPoints} ${mark.lengthPx.toFixed(3)}`),
      )
      grid.forEach((row, y) => {
        const runs: number[] = []
        row.forEach((dark, x) => {
          if (dark && row[x - 1] !== true) runs.push(x, x)
          else if (dark) runs[runs.length - 1] = x
        })
        gatherer.row(y, Int32Array.from(runs), runs.length / 2)
        for (let run = 0; run < runs.length / 2; run += 1) {
          for (let x = runs[2 * run]; x <= runs[2 * run + 1]; x += 1) {
            gatherer.add(run, { x, y, leakCode: 9, filmCode: 8, widthPx: 1 })
          }
        }
      })
      gatherer.done()
      expect(found.sort()).toEqual(floodFill(grid))
    }),
    { seed: 12, numRuns: 300 },
  )
})
