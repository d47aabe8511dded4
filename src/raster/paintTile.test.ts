import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { CodeLimits } from './classify.ts'
import {
  BESIDE_MARK,
  COVERS,
  EDGE,
  OUTSIDE,
  paintPalette,
  pixelColour,
  SIGN_SHIFT,
} from './paintPalette.ts'
import { doseTable, paintCells, paintPixels } from './paintTile.ts'
import type { PictureInks } from './stencilPicture.ts'
import { seeded } from './testFilms.testing.ts'
import {
  CELL_PLANES,
  CLEAR_CODE,
  CLEAR_DENSITY,
  densityByte,
  TILE_SIDE,
  tileBytes,
} from './tiles.ts'
import { levelOfScale, type View, viewPlanes } from './tilesView.ts'

const INKS: PictureInks = {
  sheet: [251, 251, 248],
  ink: [29, 27, 24],
  cut: [158, 19, 28],
  soft: [85, 82, 75],
}
const CELLS = TILE_SIDE * TILE_SIDE

/** What becomes of a code, by the words of the contract. */
function fate(code: number, limits: CodeLimits): 'open' | 'veiled' | 'soft' | 'closed' {
  if (code < limits.skin) return 'open'
  if (code < limits.hold) return 'veiled'
  return code < limits.full ? 'soft' : 'closed'
}

function colourOf(base: number, codes: readonly number[], limits: CodeLimits): number {
  const quarters = { open: 0, veiled: 0, soft: 0, closed: 0 }
  for (const code of codes) quarters[fate(code, limits)] += 4 / codes.length
  const cover = (base & (COVERS - 1)) / (COVERS - 1)
  return pixelColour(INKS, { sign: base >> SIGN_SHIFT, quarters, cover })
}

const limitsOf = (next: () => number): CodeLimits => {
  const [skin = 0, hold = 0, full = 0] = [next(), next(), next()]
    .map((value) => Math.floor(65536 * value))
    .sort((a, b) => a - b)
  return { skin, hold, full }
}

describe('painting by tables against painting pixel by pixel', () => {
  const palette = paintPalette(INKS)

  test('invariant: cells, at any dose, with any codes', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 2 ** 31 }), (seed) => {
        const next = seeded(seed)
        const limits = limitsOf(next)
        const codes = Uint32Array.from({ length: 400 }, () => Math.floor(2 ** 32 * next()))
        const bases = Uint16Array.from(
          { length: 400 },
          () => (Math.floor(32 * next()) << SIGN_SHIFT) | Math.floor(32 * next()),
        )
        const target = new Uint32Array(400)
        paintCells(
          { codes, bases, film: new Uint8Array(400) },
          doseTable(limits, 3),
          palette,
          target,
        )
        for (let at = 0; at < 400; at += 1) {
          // a byte stands for the middle of its 256 codes
          const four = [0, 8, 16, 24].map((shift) => ((codes[at] >>> shift) & 255) * 256 + 128)
          expect(target[at]).toBe(colourOf(bases[at], four, limits))
        }
      }),
      { numRuns: 60, seed: 31 },
    )
  })

  test('invariant: film pixels, at any dose', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 2 ** 31 }), (seed) => {
        const next = seeded(seed)
        const limits = limitsOf(next)
        const codes = Uint32Array.from({ length: 400 }, () => Math.floor(65536 * next()) & 0xfff0)
        const bases = Uint16Array.from(
          { length: 400 },
          () => (Math.floor(32 * next()) << SIGN_SHIFT) | Math.floor(32 * next()),
        )
        const target = new Uint32Array(400)
        paintPixels(
          { codes, bases, film: new Uint8Array(400) },
          doseTable(limits, 0),
          palette,
          target,
        )
        for (let at = 0; at < 400; at += 1) {
          expect(target[at]).toBe(colourOf(bases[at], [codes[at] + 8], limits))
        }
      }),
      { numRuns: 60, seed: 37 },
    )
  })
})

describe('what the signs look like', () => {
  const rgb = (value: number): readonly number[] => [
    value & 255,
    (value >> 8) & 255,
    (value >> 16) & 255,
  ]
  const all = (state: 'open' | 'veiled' | 'soft' | 'closed') => ({
    open: 0,
    veiled: 0,
    soft: 0,
    closed: 0,
    [state]: 4,
  })

  test('what opens is full ink, a closed mark inside bare sheet, its edge a line', () => {
    expect(rgb(pixelColour(INKS, { sign: 3, quarters: all('open'), cover: 1 }))).toEqual(INKS.ink)
    expect(rgb(pixelColour(INKS, { sign: 3, quarters: all('closed'), cover: 1 }))).toEqual(
      INKS.sheet,
    )
    const edge = rgb(pixelColour(INKS, { sign: 3 + EDGE, quarters: all('closed'), cover: 1 }))
    expect(edge[0]).toBeLessThan(130)
  })

  test('a thicker skin has more threads, and both have gaps', () => {
    const threads = (state: 'veiled' | 'soft') =>
      Array.from(
        { length: 12 },
        (_, sign) => 251 - rgb(pixelColour(INKS, { sign, quarters: all(state), cover: 1 }))[1],
      )
    const ink = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0)
    expect(ink(threads('soft'))).toBeGreaterThan(1.2 * ink(threads('veiled')))
    const peaks = (values: readonly number[]): number =>
      values.filter((value, at) => value > 200 && (values[(at + 11) % 12] ?? 0) <= 200).length
    expect([peaks(threads('veiled')), peaks(threads('soft'))]).toEqual([2, 3])
    for (const state of ['veiled', 'soft'] as const)
      expect(Math.min(...threads(state))).toBeLessThan(130)
  })

  test('ground shows threads across only where it may wash away, and not beside a mark', () => {
    const ground = (sign: number, state: 'open' | 'closed') =>
      rgb(pixelColour(INKS, { sign, quarters: all(state), cover: 0 }))
    expect(ground(0, 'open')[0]).toBeLessThan(150)
    expect(ground(5, 'open')).toEqual(INKS.sheet)
    expect(ground(0, 'closed')).toEqual(INKS.sheet)
    expect(ground(BESIDE_MARK, 'open')).toEqual(INKS.sheet)
    expect(pixelColour(INKS, { sign: OUTSIDE, quarters: all('open'), cover: 0 })).toBe(0)
  })
})

describe('laying tiles under a view', () => {
  const film = { widthPx: 16_384, heightPx: 16_384 }
  const view: View = { widthPx: 64, heightPx: 40, left: 0, top: 0, scale: 1 / 64, density: 1 }
  const bytes = new Uint8Array(tileBytes(6)).fill(CLEAR_CODE >> 8, 0, 4 * CELLS)
  bytes.fill(CLEAR_DENSITY, CELL_PLANES.film * CELLS, CELL_PLANES.marks * CELLS)
  const cell = 20 * TILE_SIDE + 30
  bytes[CELL_PLANES.marks * CELLS + cell] = 1
  for (let plane = 0; plane < 4; plane += 1) bytes[plane * CELLS + cell] = 77 + plane
  const source = { film, levels: 7, markByte: densityByte(0.3), tileAt: () => bytes }

  test('a cell with the faintest share of a mark is seen, with its own codes', () => {
    const planes = viewPlanes(view, source)
    const at = 20 * 64 + 30
    expect(planes.bases[at] & (COVERS - 1)).toBeGreaterThanOrEqual(Math.floor(COVERS / 3))
    expect(planes.codes[at]).toBe((77 | (78 << 8) | (79 << 16) | (80 << 24)) >>> 0)
  })

  test('outside the film nothing is painted', () => {
    const planes = viewPlanes({ ...view, left: -640, top: 16_384 - 640 }, source)
    const outside = OUTSIDE << SIGN_SHIFT
    expect(planes.bases[9]).toBe(outside)
    expect(planes.bases[10]).not.toBe(outside)
    expect(planes.bases[9 * 64 + 20]).not.toBe(outside)
    expect(planes.bases[10 * 64 + 20]).toBe(outside)
  })

  test('a tile that has not come is stood for by a coarser one', () => {
    const near: View = { ...view, left: 30 * 64 - 640, top: 20 * 64 - 640, scale: 1 / 32 }
    const planes = viewPlanes(near, {
      ...source,
      tileAt: ({ level }) => (level === 6 ? bytes : undefined),
    })
    expect(planes.bases[21 * 64 + 21] & (COVERS - 1)).toBeGreaterThanOrEqual(Math.floor(COVERS / 3))
  })

  test('cells are shown three quarters to one and a half pixels large', () => {
    for (const scale of [1 / 90, 0.02, 0.0469, 0.1, 0.34, 0.749]) {
      const cells = scale * 2 ** levelOfScale(scale, 12)
      expect(cells).toBeGreaterThanOrEqual(0.75 - 1e-6)
      expect(cells).toBeLessThanOrEqual(1.5 + 1e-6)
    }
    expect(levelOfScale(8, 12)).toBe(0)
    expect(levelOfScale(0.0001, 7)).toBe(6)
  })
})
