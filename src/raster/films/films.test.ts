import { expect, test } from 'vitest'
import { labFromSrgb } from '../../core/colour/srgb.ts'
import { SOLID } from '../../core/halftone/solid.ts'
import { nearestInk } from '../../core/separation/nearestInk.ts'
import { near } from '../../core/units/near.testing.ts'
import type { Artwork } from './artwork.ts'
import { enlarged } from './enlarge.ts'
import { decided, lineShares } from './lineTones.ts'
import { edgesMoved } from './moveEdges.ts'
import { processPlates, singleTones, type Tones } from './tones.ts'

type Colour = readonly [number, number, number]

function artworkOf(
  [widthPx, heightPx]: readonly [number, number],
  colourAt: (x: number, y: number) => Colour,
  bandRows = 3,
): Artwork {
  async function* bands() {
    await Promise.resolve()
    for (let top = 0; top < heightPx; top += bandRows) {
      const rows = Math.min(bandRows, heightPx - top)
      const samples = new Uint8Array(3 * widthPx * rows)
      for (let at = 0; at < widthPx * rows; at++) {
        samples.set(colourAt(at % widthPx, top + Math.floor(at / widthPx)), 3 * at)
      }
      yield { rows, samples }
    }
  }
  return { space: 'rgb', widthPx, heightPx, bands }
}

async function all(tones: Tones): Promise<number[][]> {
  const plates: number[][] = Array.from({ length: tones.plates }, () => [])
  for await (const row of tones.rows()) {
    row.forEach((plate, at) => plates[at].push(...plate))
  }
  return plates
}

const share = (plate: readonly number[]): number =>
  plate.reduce((sum, tone) => sum + tone, 0) / plate.length / SOLID

const WHITE: Colour = [255, 255, 255]
const RED: Colour = [200, 30, 40]
const BLACK: Colour = [20, 20, 20]
/** Between red and white, and nobody's wish. */
const PINK: Colour = [228, 143, 148]

const mixed = (one: Colour, other: Colour, part: number): Colour => {
  const [r, g, b] = one.map((value, at) => Math.round(value + part * (other[at] - value)))
  return [r, g, b]
}

/** How much of a pixel lies within a circle. */
function inside(x: number, y: number, [cx, cy, radius]: readonly [number, number, number]): number {
  let count = 0
  for (let part = 0; part < 64; part++) {
    const [px, py] = [x + ((part % 8) + 0.5) / 8, y + (Math.floor(part / 8) + 0.5) / 8]
    if (Math.hypot(px - cx, py - cy) < radius) count += 1
  }
  return count / 64
}

const labs = [RED, BLACK, PINK].map(([r, g, b]) => labFromSrgb([r / 255, g / 255, b / 255]))

test('smoothed edges become one of their two colours, never a third between them', async () => {
  const circle = [20.3, 19.6, 13.2] as const
  const artwork = artworkOf([40, 40], (x, y) => mixed(WHITE, RED, inside(x, y, circle)))
  const shares = lineShares(artwork, { inks: 3, nearest: nearestInk(labs.map((lab) => [lab])) })
  const [red, black, pink] = await all(decided(shares))
  expect([share(black), share(pink)]).toEqual([0, 0])
  near(share(red), (Math.PI * 13.2 ** 2) / 1600, { within: 0.005, because: 'whole pixels' })
})

test('enlarged eight times, the edge is found within the pixels and every pixel is one colour', async () => {
  const circle = [20.3, 19.6, 13.2] as const
  const artwork = artworkOf([40, 40], (x, y) => mixed(BLACK, RED, inside(x, y, circle)))
  const shares = lineShares(artwork, { inks: 3, nearest: nearestInk(labs.map((lab) => [lab])) })
  const [red, black, pink] = await all(decided(enlarged(shares, { widthPx: 320, heightPx: 320 })))
  expect(share(pink)).toBe(0)
  near(share(red) + share(black), 1, { within: 1e-12, because: 'no paper and nothing twice' })
  near(share(red), (Math.PI * 13.2 ** 2) / 1600, { within: 0.002, because: 'eighths of a pixel' })
  let off = 0
  red.forEach((tone, at) => {
    const far = Math.hypot((at % 320) / 8 - 20.3, Math.floor(at / 320) / 8 - 19.6) - 13.2
    if (tone > 0 !== far < 0 && Math.abs(far) > 0.35) off += 1
  })
  expect(off).toBe(0)
})

test('a line one pixel wide stays, and its smoothed slope too', async () => {
  const straight = artworkOf([30, 12], (_, y) => (y === 5 ? BLACK : WHITE))
  const shares = (of: Artwork) =>
    lineShares(of, { inks: 3, nearest: nearestInk(labs.map((lab) => [lab])) })
  const [red, black] = await all(decided(shares(straight)))
  expect([share(red), share(black)]).toEqual([0, 30 / 360])
  const slope = artworkOf([60, 60], (x, y) => {
    const off = Math.abs((y - 0.4 * x - 15.2) / Math.hypot(1, 0.4))
    return mixed(WHITE, BLACK, Math.min(1, Math.max(0, 1.2 - off)))
  })
  const [reds, blacks, pinks] = await all(decided(shares(slope)))
  expect([share(reds), share(pinks)]).toEqual([0, 0])
  const wide = (share(blacks) * 3600) / 60 / Math.hypot(1, 0.4)
  near(wide, 1.4, { within: 0.5, because: 'a line of 1.4 pixels in whole pixels' })
})

test('an edge moves by what was asked, in all directions', async () => {
  const radius = 40
  const disc: Tones = {
    plates: 1,
    widthPx: 128,
    heightPx: 128,
    async *rows() {
      await Promise.resolve()
      for (let y = 0; y < 128; y++) {
        yield [
          Uint16Array.from({ length: 128 }, (_, x) =>
            Math.hypot(x + 0.5 - 64, y + 0.5 - 64) < radius ? SOLID : 0,
          ),
        ]
      }
    },
  }
  for (const reachPx of [-11, -3, 2, 5, 16]) {
    const [plate] = await all(edgesMoved(disc, { reachPx }))
    const found = Math.sqrt((share(plate) * 128 ** 2) / Math.PI)
    near(found, radius + reachPx, { within: 0.35, because: 'rims of whole pixels' })
    // on the diagonal as along the axes: a circle, not a square
    const rim = [...Array(64).keys()].filter((at) => plate[(63 - at) * 128 + 63 - at] > 0).length
    near(rim * Math.SQRT2, radius + reachPx, { within: 1.5, because: 'a pixel’s diagonal' })
  }
})

test('an edge moved by half a pixel and less stays, by more goes to the nearest pixel', async () => {
  const half: Tones = {
    plates: 2,
    widthPx: 20,
    heightPx: 9,
    async *rows() {
      await Promise.resolve()
      const plate = Uint16Array.from({ length: 20 }, (_, x) => (x < 10 ? SOLID : 0))
      for (let y = 0; y < 9; y++) yield [plate, plate.toReversed()]
    },
  }
  const [still] = await all(edgesMoved(half, { reachPx: 0.49 }))
  expect(share(still)).toBe(0.5)
  const [left, right] = await all(edgesMoved(half, { reachPx: 2.4 }))
  expect([share(left), share(right)]).toEqual([0.6, 0.6])
  const [narrow] = await all(edgesMoved(half, { reachPx: -2.6 }))
  expect(share(narrow)).toBe(0.35)
})

test('single: grey levels are exact, and a colour is the grey as light as it', async () => {
  const greys = artworkOf([256, 1], (x) => [x, x, x])
  const [plate] = await all(singleTones(greys))
  expect(plate).toEqual(Array.from({ length: 256 }, (_, x) => 257 * (255 - x)))
  const [[lime]] = await all(singleTones(artworkOf([1, 1], () => [0, 255, 0])))
  // Y 0.7152 is stored 0.8624 by hand: (0.7152^(1/2.4) * 1.055 − 0.055)
  near(1 - lime / SOLID, 0.8624, { within: 1e-3, because: 'four digits by hand' })
})

test('process: primaries, and greys in black alone', async () => {
  const colours: readonly Colour[] = [
    [0, 255, 255],
    [255, 0, 255],
    [255, 255, 0],
    [0, 0, 0],
    [102, 102, 102],
    [255, 255, 255],
    [204, 102, 51],
  ]
  const plates = await all(processPlates(artworkOf([7, 1], (x) => colours[x])))
  const at = (x: number): readonly number[] => plates.map((plate) => plate[x] / 257)
  expect(colours.map((_, x) => at(x))).toEqual([
    [255, 0, 0, 0],
    [0, 255, 0, 0],
    [0, 0, 255, 0],
    [0, 0, 0, 255],
    [0, 0, 0, 153],
    [0, 0, 0, 0],
    [0, 102, 153, 51],
  ])
})

test('enlarging keeps a flat tone and the mean, and runs evenly between two pixels', async () => {
  const two = artworkOf([2, 1], (x) => (x === 0 ? [0, 0, 0] : WHITE))
  const [plate] = await all(enlarged(singleTones(two), { widthPx: 8, heightPx: 3 }))
  const eighths = plate.slice(0, 8).map((tone) => Math.round((tone / SOLID) * 8))
  expect(eighths).toEqual([8, 8, 7, 5, 3, 1, 0, 0])
  near(share(plate), 0.5, { within: 1e-4, because: 'rounding' })
})
