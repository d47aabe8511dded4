import { expect, test } from 'vitest'
import { near } from '../../core/units/near.testing.ts'
import { toneBand } from './toneBand.ts'

const [WIDTH, HEIGHT] = [240, 120]

/** A plate of one tone a pixel. */
function plate(toneAt: (x: number, y: number) => number): Uint8Array {
  return Uint8Array.from({ length: WIDTH * HEIGHT }, (_, at) =>
    toneAt(at % WIDTH, Math.floor(at / WIDTH)),
  )
}
const size = { widthPx: WIDTH, heightPx: HEIGHT }

test('a pale patch is found with its box and its share, another smaller one is not', () => {
  const tones = plate((x, y) => {
    if (x >= 120 && x < 204 && y >= 24 && y < 84) return 9
    return x >= 12 && x < 24 && y >= 12 && y < 24 ? 9 : 0
  })
  const found = toneBand(tones, { ...size, from: 1, to: 12 })
  expect(found?.box).toEqual({ left: 120, top: 24, right: 204, bottom: 84 })
  const inner = (82 * 58 + 10 * 10) / (WIDTH * HEIGHT)
  near(found?.share ?? 0, inner, { within: 1e-12, because: 'all but the rims of both' })
})

test('a smoothed edge between paper and solid has no pale tones', () => {
  const edge = plate((x, y) =>
    Math.max(0, Math.min(255, Math.round(128 + 90 * (x + 0.3 * y - 130)))),
  )
  expect(toneBand(edge, { ...size, from: 1, to: 40 })).toBeNull()
})

test('a slope that lingers in the band is one', () => {
  const slope = plate((x) => Math.floor(x / 10))
  expect(toneBand(slope, { ...size, from: 1, to: 8 })?.box.left).toBe(0)
  expect(toneBand(slope, { ...size, from: 200, to: 254 })).toBeNull()
})
