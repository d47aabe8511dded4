import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { near } from '../core/units/near.testing.ts'
import type { Film } from './film.ts'
import { codeOfLeak, leakOfCode } from './leakCode.ts'
import { leakMap, leakMapper } from './leakMap.ts'
import { pyramidMaker, pyramidParts, pyramidTopMaker } from './pyramid.ts'
import { drawBar, filmOf, seeded } from './testFilms.testing.ts'
import {
  CLEAR_CODE,
  densityByte,
  densityByteOfCodes,
  densityOfByte,
  pyramidLevels,
  TILE_SIDE,
  type Tile,
  tileBytes,
} from './tiles.ts'

const CELLS = TILE_SIDE * TILE_SIDE
const SPREAD = {
  source: { kind: 'disc', radiusUm: 9 },
  halo: { lengthUm: 40, weight: 0.12 },
} as const

type Tiles = ReadonlyMap<string, Uint8Array>

async function tilesOf(film: Film, marksAbove = 0.3): Promise<Tiles> {
  const tiles = new Map<string, Uint8Array>()
  const put = ({ level, x, y, bytes }: Tile): Promise<void> => {
    tiles.set(`${level}/${x}/${y}`, bytes)
    return Promise.resolve()
  }
  const mapper = leakMapper(film, SPREAD)
  const maker = pyramidMaker(film, { marksAbove })
  const tops = pyramidTopMaker(film, { marksAbove, put })
  for (const rows of pyramidParts(film).parts) {
    const { top } = await maker.part(mapper.bands(film, rows), rows, put)
    if (top !== null) await tops.push(top)
  }
  return tiles
}

/** Every pixel's code and density byte, straight from the leak map. */
async function pixelsOf(film: Film): Promise<{ codes: Uint16Array; film: Uint8Array }> {
  const size = film.widthPx * film.heightPx
  const pixels = { codes: new Uint16Array(size), film: new Uint8Array(size) }
  for await (const band of leakMap(film, SPREAD)) {
    pixels.codes.set(band.codes, band.top * film.widthPx)
  }
  for await (const { top, samples } of film.bands()) {
    pixels.film.set(Uint8Array.from(samples, densityByte), top * film.widthPx)
  }
  return pixels
}

/** Strokes of many densities and widths on a clear sheet. */
function strokes(widthPx: number, heightPx: number, seed: number): Film {
  const next = seeded(seed)
  const densities = new Float32Array(widthPx * heightPx)
  for (let bar = 0; bar < 60; bar += 1) {
    drawBar(densities, widthPx, {
      x: next() * widthPx,
      y: next() * heightPx,
      turn: next() * Math.PI,
      length: 20 + next() * 200,
      width: 1 + next() * 9,
      density: 0.35 + next() * 2.4,
    })
  }
  return filmOf(densities, { widthPx, pixelUm: 35.3 })
}

test('level 0 holds every film pixel: code to twelve bits, density to its step', async () => {
  const film = strokes(301, 290, 5)
  const [tiles, pixels] = [await tilesOf(film), await pixelsOf(film)]
  for (let at = 0; at < pixels.codes.length; at += 1) {
    const [x, y] = [at % 301, Math.floor(at / 301)]
    const tile = tiles.get(`0/${x >> 8}/${y >> 8}`)
    const cell = (y & 255) * 256 + (x & 255)
    if (tile === undefined) {
      expect(Math.abs(pixels.codes[at] - CLEAR_CODE)).toBeLessThan(300)
      continue
    }
    const code = (tile[cell] << 8) | tile[CELLS + cell]
    if (Math.abs(pixels.codes[at] - CLEAR_CODE) < 300) continue
    expect(code).toBe(pixels.codes[at] & 0xfff0)
    expect(Math.abs(tile[2 * CELLS + cell] - pixels.film[at])).toBeLessThanOrEqual(1)
  }
})

/** Sorted codes of the mark pixels of one cell, by looking at each. */
function markCodes(
  pixels: Readonly<{ codes: Uint16Array; film: Uint8Array }>,
  widthPx: number,
  { cellPx, x, y }: Readonly<{ cellPx: number; x: number; y: number }>,
): readonly number[] {
  const found: number[] = []
  for (let j = y * cellPx; j < (y + 1) * cellPx; j += 1) {
    for (let i = x * cellPx; i < (x + 1) * cellPx; i += 1) {
      const at = j * widthPx + i
      if (i < widthPx && at < pixels.codes.length && pixels.film[at] >= densityByte(0.3)) {
        found.push(pixels.codes[at] >> 8)
      }
    }
  }
  return found.sort((a, b) => a - b)
}

describe.each([
  ['a wide film of one part', 5953, 160],
  ['a tall film of three parts', 431, 2205],
])('coarser levels of %s against every pixel looked at', async (_, widthPx, heightPx) => {
  const film = strokes(widthPx, heightPx, 12)
  const [tiles, pixels] = [await tilesOf(film), await pixelsOf(film)]

  test('level 1 has the codes of its one, two or four mark pixels exactly', () => {
    let seen = 0
    for (let y = 0; y < heightPx >> 1; y += 1) {
      for (let x = 0; x < widthPx >> 1; x += 1) {
        const codes = markCodes(pixels, widthPx, { cellPx: 2, x, y })
        const tile = tiles.get(`1/${x >> 8}/${y >> 8}`)
        if (codes.length === 0 || tile === undefined) continue
        const cell = (y & 255) * 256 + (x & 255)
        const own = [0, 1, 2, 3].map((plane) => tile[plane * CELLS + cell])
        const expected = [1, 3, 5, 7].map(
          (eighth) => codes[Math.floor((eighth * codes.length) / 8)],
        )
        expect(own).toEqual(expected)
        expect(tile[5 * CELLS + cell]).toBe(Math.round((255 * codes.length) / 4))
        seen += 1
      }
    }
    expect(seen).toBeGreaterThan(5000)
  })

  test.each([2, 3, 4])(
    'level %i: marks counted to the pixel, quarters near the true ones',
    (level) => {
      const cellPx = 2 ** level
      let worst = 0
      let total = 0
      let count = 0
      for (let y = 0; y * cellPx < heightPx; y += 1) {
        for (let x = 0; x * cellPx < widthPx; x += 1) {
          const codes = markCodes(pixels, widthPx, { cellPx, x, y })
          const tile = tiles.get(`${level}/${x >> 8}/${y >> 8}`)
          const cell = (y & 255) * 256 + (x & 255)
          const share = codes.length / cellPx ** 2
          const kept = tile === undefined ? 0 : tile[5 * CELLS + cell]
          expect(kept).toBe(share === 0 ? 0 : Math.max(1, Math.round(255 * share)))
          if (codes.length < 8 || tile === undefined) continue
          for (const [plane, eighth] of [1, 3, 5, 7].entries()) {
            const code = tile[plane * CELLS + cell]
            const below = codes.filter((other) => other < code).length / codes.length
            const upTo = codes.filter((other) => other <= code).length / codes.length
            const rank = eighth / 8
            const off = Math.max(0, below - rank, rank - upTo)
            worst = Math.max(worst, off)
            total += off
            count += 1
          }
        }
      }
      near(worst, 0, { within: 0.19, because: 'a child tells its quarters by their middles only' })
      near(total / count, 0, { within: 0.02, because: 'these errors go both ways' })
    },
  )
})

test('a line of 0.1 mm keeps its share and its own leak on the coarsest level of an A4 film', async () => {
  const widthPx = 5953 // 210 mm at 720 dpi; a band of it is enough
  const densities = new Float32Array(widthPx * 512)
  for (let y = 0; y < 512; y += 1) {
    for (let x = 3000; x < 3003; x += 1) densities[y * widthPx + x] = 3
  }
  const film = filmOf(densities, { widthPx, pixelUm: 35.28 })
  const [tiles, pixels] = [await tilesOf(film), await pixelsOf(film)]
  const own = pixels.codes[256 * widthPx + 3001] >> 8
  const levels = pyramidLevels(film)
  for (const { level, cellPx } of levels.slice(1)) {
    const x = Math.floor(3001 / cellPx)
    const cell = (x & 255) + (Math.floor(256 / cellPx) & 255) * 256
    const tile = tiles.get(`${level}/${x >> 8}/${Math.floor(256 / cellPx) >> 8}`)
    expect(tile).toBeDefined()
    const neighbours = [cell - 1, cell, cell + 1].map((at) => tile?.[5 * CELLS + at] ?? 0)
    const share = neighbours.reduce((sum, marks) => sum + marks, 0) / 255
    near(share * cellPx, 3, {
      within: (1.5 * cellPx) / 255 + 0.01,
      because: 'a byte tells a share to 1/255',
    })
    expect(tile?.[cell]).toBeLessThanOrEqual(own)
    expect(tile?.[3 * CELLS + cell]).toBeLessThan(codeOfLeak(0.1) >> 8)
  }
})

test('tiles of clear film are not made, and a film without a mark has none', async () => {
  const densities = new Float32Array(1100 * 600)
  const empty = await tilesOf(filmOf(densities, { widthPx: 1100, pixelUm: 35.3 }))
  expect([...empty.keys()]).toEqual([])
  densities.fill(2, 20 * 1100 + 30, 20 * 1100 + 60)
  const few = await tilesOf(filmOf(densities, { widthPx: 1100, pixelUm: 35.3 }))
  expect([...few.keys()].sort()).toEqual(['0/0/0', '1/0/0', '2/0/0', '3/0/0'])
})

test('invariant: the tiles do not depend on how the film comes in', async () => {
  const densities = new Float32Array(300 * 280)
  const next = seeded(3)
  for (let at = 0; at < densities.length; at += 1) densities[at] = next() < 0.1 ? 2 * next() : 0
  const whole = await tilesOf(filmOf(densities, { widthPx: 300, pixelUm: 42.3, bandRows: 280 }))
  await fc.assert(
    fc.asyncProperty(fc.integer({ min: 1, max: 90 }), async (bandRows) => {
      const parts = await tilesOf(filmOf(densities, { widthPx: 300, pixelUm: 42.3, bandRows }))
      expect([...parts.keys()]).toEqual([...whole.keys()])
      for (const [name, bytes] of parts)
        expect(Buffer.compare(bytes, whole.get(name) ?? bytes)).toBe(0)
    }),
    { numRuns: 6, seed: 17 },
  )
})

test('a tile has its planes whole', () => {
  expect(tileBytes(0)).toBe(3 * 65536)
  expect(tileBytes(4)).toBe(6 * 65536)
})

test('a density comes back from its byte within half a step', () => {
  for (const value of [-0.1, 0, 0.3, 0.93, 1.8, 3.5, 4.98]) {
    near(densityOfByte(densityByte(value)), value, { within: 0.0101, because: 'steps of 0.02' })
  }
  expect(densityByte(0.3)).toBe(densityByte(0.319))
  expect(densityByte(0.2999)).toBe(densityByte(0.3) - 1)
})

test('the table of density bytes is the formula, code by code', () => {
  const table = densityByteOfCodes()
  let off = 0
  for (let code = 1; code < 65536; code += 1) {
    const byte = densityByte(-Math.log10(leakOfCode(code)))
    expect(Math.abs(table[code] - byte)).toBeLessThanOrEqual(1)
    if (table[code] !== byte) off += 1
  }
  expect(off).toBeLessThan(256) // only where a step's end falls between two codes
})
