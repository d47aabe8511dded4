import { expect, test } from 'vitest'
import { FAR, nearestGround, nearestGroundFor } from './nearestGround.ts'
import { seeded } from './testFilms.testing.ts'

test('oracle felzenszwalb-huttenlocher: every distance is that of a search through all ground pixels', () => {
  const [widthPx, rows, limitPx] = [83, 71, 9]
  const next = seeded(31)
  const values = new Uint8Array(widthPx * rows)
  for (let blob = 0; blob < 30; blob += 1) {
    const [cx, cy, r] = [next() * widthPx, next() * rows, 2 + next() * 13]
    for (let at = 0; at < values.length; at += 1) {
      if (Math.hypot((at % widthPx) - cx, Math.floor(at / widthPx) - cy) < r) values[at] = 1
    }
  }
  const ground: (readonly [number, number])[] = []
  for (let y = -1; y <= rows; y += 1) {
    for (let x = -1; x <= widthPx; x += 1) {
      const inside = x >= 0 && y >= 0 && x < widthPx && y < rows
      if (!inside || values[y * widthPx + x] === 0) ground.push([x, y])
    }
  }
  const [first, count] = [20, 30]
  const near = nearestGroundFor(widthPx, count)
  nearestGround({ widthPx, rows, values }, { first, count, limitPx }, near)
  let far = 0
  for (let row = 0; row < count; row += 1) {
    for (let x = 0; x < widthPx; x += 1) {
      const y = first + row
      const searched = Math.min(...ground.map(([gx, gy]) => (gx - x) ** 2 + (gy - y) ** 2))
      const found = near.squared[row * widthPx + x]
      expect(found).toBe(searched > limitPx ** 2 ? FAR : searched)
      if (found === FAR) far += 1
      if (found === FAR || found === 0) continue
      // the ground named is ground, and as far away as said
      const column = near.column[row * widthPx + x]
      const beside = column < 0 || column >= widthPx
      const down = beside ? 0 : near.down[row * widthPx + column]
      expect((column - x) ** 2 + down ** 2).toBe(found)
      if (!beside && y + down >= 0 && y + down < rows)
        expect(values[(y + down) * widthPx + column]).toBe(0)
    }
  }
  expect(far).toBeGreaterThan(20)
})
