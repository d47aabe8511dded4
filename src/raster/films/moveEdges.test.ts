import fc from 'fast-check'
import { expect, test } from 'vitest'
import { edgesMoved } from './moveEdges.ts'
import type { Tones } from './tones.ts'

const [WIDTH, HEIGHT] = [23, 17]

function tonesOf(picture: readonly number[]): Tones {
  async function* rows() {
    for (let y = 0; y < HEIGHT; y++) {
      yield await Promise.resolve([Uint16Array.from(picture.slice(y * WIDTH, (y + 1) * WIDTH))])
    }
  }
  return { plates: 1, widthPx: WIDTH, heightPx: HEIGHT, rows }
}

async function moved(picture: readonly number[], reachPx: number): Promise<number[]> {
  const all: number[] = []
  for await (const [row] of edgesMoved(tonesOf(picture), { reachPx }).rows())
    all.push(...(row ?? []))
  return all
}

/** By every pixel's true distance to every other. */
function byHand(picture: readonly number[], reachPx: number): number[] {
  const better = reachPx < 0 ? Math.min : Math.max
  const reach = Math.abs(reachPx) + 0.5
  return picture.map((_, at) => {
    const [x, y] = [at % WIDTH, Math.floor(at / WIDTH)]
    return picture.reduce((best, tone, other) => {
      const far = Math.hypot((other % WIDTH) - x, Math.floor(other / WIDTH) - y)
      return far <= reach ? better(best, tone) : best
    }, picture[at] ?? 0)
  })
}

test('invariant: edges move by true distance, in flat colours as in tones', async () => {
  const pixel = fc.oneof({ weight: 12, arbitrary: fc.constantFrom(0, 0, 0, 0xffff) })
  const tone = fc.integer({ min: 0, max: 0xffff })
  const flat = fc.array(pixel, { minLength: WIDTH * HEIGHT, maxLength: WIDTH * HEIGHT })
  // tones in a few rows alone: those beside them are looked at by both ways
  const touched = fc.array(fc.tuple(fc.nat(WIDTH * HEIGHT - 1), tone), { maxLength: 3 })
  const reach = fc.double({ min: -4.4, max: 4.4, noNaN: true })
  await fc.assert(
    fc.asyncProperty(flat, touched, reach, async (picture, tones, reachPx) => {
      fc.pre(Math.abs(reachPx) >= 0.5)
      const whole: number[] = [...picture]
      for (const [at, value] of tones) whole[at] = value
      expect(await moved(whole, reachPx)).toEqual(byHand(whole, reachPx))
    }),
    { numRuns: 25 },
  )
})

test('each plate’s edges move by their own, and one that stays is left as it is', async () => {
  const square = Array.from({ length: WIDTH * HEIGHT }, (_, at) => {
    const [x, y] = [at % WIDTH, Math.floor(at / WIDTH)]
    return x > 7 && x < 15 && y > 4 && y < 12 ? 0xffff : 0
  })
  const three = {
    ...tonesOf(square),
    plates: 3,
    rows: async function* () {
      for await (const [row = new Uint16Array(WIDTH)] of tonesOf(square).rows())
        yield [row, row, row]
    },
  }
  const all: number[][] = [[], [], []]
  for await (const row of edgesMoved(three, { reachPx: [2, 0, -1.5] }).rows()) {
    row.forEach((plate, at) => all[at]?.push(...plate))
  }
  expect(all).toEqual([byHand(square, 2), square, byHand(square, -1.5)])
})
