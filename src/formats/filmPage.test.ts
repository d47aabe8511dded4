import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { near } from '../core/units/near.testing.ts'
import { bandsOf, type Pixels, packedRows, type Size } from './bits.testing.ts'
import type { FilmPage, PageItem } from './filmPage.ts'
import { writeFilmPdf } from './filmPdf.ts'
import {
  circlePath,
  joined,
  linePath,
  moveBy,
  type Path,
  rectanglePath,
  turnBy,
} from './pagePath.ts'
import { byPdfium, byPdfjs, checkedByQpdf } from './pdfReaders.testing.ts'
import { memorySink, testDeflater } from './sink.testing.ts'

/** 20 by 10 mm, drawn with 10 pixels a mm. */
const SHEET = { widthMm: 20, heightMm: 10 }
const SHEET_PX = { widthPx: 200, heightPx: 100 }

async function written(
  items: readonly PageItem[],
  page: Partial<FilmPage> = {},
): Promise<Uint8Array> {
  const { sink, bytes } = memorySink()
  await writeFilmPdf([{ ...SHEET, ...page, items }], { sink, deflater: testDeflater })
  return bytes()
}

/** Blackness of each pixel of the sheet as pdfium draws it, 0 … 1. */
async function drawn(
  items: readonly PageItem[],
): Promise<Readonly<{ at: (x: number, y: number) => number; sumMm2: number }>> {
  const pdf = await written(items)
  expect(await checkedByQpdf(pdf)).toBe(0)
  const { grey } = await byPdfium(pdf, SHEET_PX)
  const at = (x: number, y: number): number => 1 - (grey[y * SHEET_PX.widthPx + x] ?? 0) / 255
  const sumMm2 = grey.reduce((sum, value) => sum + 1 - value / 255, 0) / 100
  return { at, sumMm2 }
}

/** Columns and rows of the sheet, in pixels, between which pixels are rather black than clear. */
async function expectBox(
  items: readonly PageItem[],
  [left, top, right, bottom]: readonly [number, number, number, number],
): Promise<void> {
  const { at } = await drawn(items)
  for (let y = 0; y < SHEET_PX.heightPx; y++) {
    for (let x = 0; x < SHEET_PX.widthPx; x++) {
      const inside = x >= left && x < right && y >= top && y < bottom
      expect(Math.round(at(x, y)), `pixel ${x}, ${y}`).toBe(inside ? 1 : 0)
    }
  }
}

/** Edges inside pixels, as readers differ over those that fall between two. */
const box = rectanglePath({ xMm: 3.04, yMm: 2.04, widthMm: 4.92, heightMm: 3.92 })
const fill = (path: Path): PageItem => ({ kind: 'fill', path })

test('millimetres go right and down from the top left', async () => {
  await expectBox([fill(box)], [30, 20, 80, 60])
})

describe('groups', () => {
  test('move what is in them', async () => {
    const transform = moveBy({ xMm: 4, yMm: 1 })
    await expectBox([{ kind: 'group', transform, items: [fill(box)] }], [70, 30, 120, 70])
  })

  test('turn it clockwise, and in each other from the inside out', async () => {
    // a quarter about (3, 6), the lower left corner, lays the box below and right of it
    const turn = turnBy({ deg: 90, xMm: 3, yMm: 6 })
    const turned: PageItem = { kind: 'group', transform: turn, items: [fill(box)] }
    await expectBox([turned], [30, 60, 70, 110])
    const up: PageItem = { kind: 'group', transform: moveBy({ xMm: 2, yMm: -4 }), items: [turned] }
    await expectBox([up], [50, 20, 90, 70])
  })

  test('invariant: a turn and the turn back leave a place where it was', () => {
    const number = fc.double({ min: -500, max: 500, noNaN: true })
    fc.assert(
      fc.property(number, number, number, (deg, xMm, yMm) => {
        const both = joined(turnBy({ deg: -deg, xMm, yMm }), turnBy({ deg, xMm, yMm }))
        const because = 'sums of numbers up to 1000'
        near(both.a, 1, { within: 1e-12, because })
        near(both.b, 0, { within: 1e-12, because })
        near(both.eMm, 0, { within: 1e-9, because })
        near(both.fMm, 0, { within: 1e-9, because })
      }),
      { seed: 11 },
    )
  })

  test('turn bitmaps with all their pixels', async () => {
    const size: Size = { widthPx: 40, heightPx: 30 }
    const black: Pixels = (x, y) => (x * 3 + y * 5 + ((x * y) >> 3)) % 7 < 3
    const rows = packedRows(size, black)
    const film = { ...size, pixelUm: 100, bands: bandsOf(rows, size, 7) }
    const bitmap: PageItem = { kind: 'bitmap', film, xMm: 6, yMm: 2 }
    const transform = turnBy({ deg: 90, xMm: 6, yMm: 2 })
    const { at } = await drawn([{ kind: 'group', transform, items: [bitmap] }])
    for (let y = 0; y < 100; y++) {
      for (let x = 0; x < 200; x++) {
        const [column, row] = [y - 20, 59 - x]
        const inside = column >= 0 && column < 40 && row >= 0 && row < 30
        expect(Math.round(at(x, y)), `pixel ${x}, ${y}`).toBe(inside && black(column, row) ? 1 : 0)
      }
    }
  })
})

test('areas: disc, ring by the even-odd rule, two windings, a pen’s strokes', async () => {
  const disc = circlePath({ xMm: 10, yMm: 5, radiusMm: 4 })
  const hole = circlePath({ xMm: 10, yMm: 5, radiusMm: 3 })
  const because = 'a Bézier quarter is 0.03 % off, pixels at the edge have 256 greys'
  const areaOf = async (item: PageItem): Promise<number> => (await drawn([item])).sumMm2
  near(await areaOf(fill(disc)), Math.PI * 16, { within: 0.15, because })
  near(await areaOf(fill([...disc, ...hole])), Math.PI * 16, { within: 0.15, because })
  const ring: PageItem = { kind: 'fill', path: [...disc, ...hole], rule: 'even-odd' }
  near(await areaOf(ring), Math.PI * 7, { within: 0.2, because })
  const line = linePath([
    { xMm: 4, yMm: 5 },
    { xMm: 16, yMm: 5 },
  ])
  const stroke = { kind: 'stroke', path: line, widthMm: 2 } as const
  near(await areaOf(stroke), 24, { within: 0.1, because })
  near(await areaOf({ ...stroke, ends: 'round' }), 24 + Math.PI, { within: 0.1, because })
  near(await areaOf({ ...stroke, ends: 'square' }), 28, { within: 0.1, because })
  near(await areaOf({ ...stroke, dashesMm: [3, 1] }), 18, { within: 0.2, because })
  const scaled = { a: 0.5, b: 0, c: 0, d: 0.5, eMm: 1, fMm: 1 }
  near(await areaOf({ kind: 'group', transform: scaled, items: [stroke] }), 6, {
    within: 0.1,
    because,
  })
})

test('corners: sharp, cut, round', async () => {
  const path = linePath([
    { xMm: 4, yMm: 8 },
    { xMm: 4, yMm: 4 },
    { xMm: 12, yMm: 4 },
  ])
  const outer = async (corners: 'sharp' | 'cut' | 'round'): Promise<number> => {
    const { at } = await drawn([{ kind: 'stroke', path, widthMm: 2, corners }])
    expect(at(39, 39)).toBe(1)
    return [0, 1, 2, 3, 4, 5, 6, 7, 8, 9].filter((step) => at(30 + step, 30 + step) > 0.5).length
  }
  expect(await outer('sharp')).toBe(10)
  near(await outer('round'), 10 * Math.SQRT1_2, { within: 0.6, because: 'whole pixels' })
  expect(await outer('cut')).toBe(5)
})

test('what comes later lies on top, and a tint of nothing clears', async () => {
  const size: Size = { widthPx: 60, heightPx: 60 }
  const film = {
    ...size,
    pixelUm: 100,
    bands: bandsOf(
      packedRows(size, () => true),
      size,
      9,
    ),
  }
  const { at } = await drawn([
    { kind: 'bitmap', film, xMm: 1, yMm: 1 },
    {
      kind: 'fill',
      path: rectanglePath({ xMm: 2, yMm: 2, widthMm: 3, heightMm: 3 }),
      tintShare: 0,
    },
    fill(rectanglePath({ xMm: 3, yMm: 3, widthMm: 1, heightMm: 1 })),
    {
      kind: 'fill',
      path: rectanglePath({ xMm: 8, yMm: 1, widthMm: 4, heightMm: 4 }),
      tintShare: 0.4,
    },
  ])
  expect([at(15, 15), at(25, 25), at(35, 35), at(5, 5)]).toEqual([1, 0, 1, 0])
  near(at(100, 30), 0.4, { within: 1 / 255, because: '256 greys' })
})

test('pdf.js sees the places to a thousandth of a mm', async () => {
  const path = linePath([
    { xMm: 1.2345, yMm: 2.3456 },
    { xMm: 300.4567, yMm: 399.5678 },
  ])
  const items: readonly PageItem[] = [{ kind: 'stroke', path, widthMm: 0.1 }]
  const { operators } = await byPdfjs(await written(items, { widthMm: 310, heightMm: 430 }))
  const [, values] = operators.find(([name]) => name === 'constructPath') ?? []
  const [, , [left, bottom, right, top]] = values as [unknown, unknown, Float32Array]
  const inMm = (points: number | undefined): number => ((points ?? Number.NaN) / 72) * 25.4
  const because = '32-bit floats of about 1200 points'
  near(inMm(left), 1.2345, { within: 1e-4, because })
  near(inMm(right), 300.4567, { within: 1e-4, because })
  near(430 - inMm(top), 2.3456, { within: 1e-4, because })
  near(430 - inMm(bottom), 399.5678, { within: 1e-4, because })
  const [, width] = operators.find(([name]) => name === 'setLineWidth') ?? []
  near(inMm((width as [number])[0]), 0.1, { within: 1e-4, because: 'four decimals of a point' })
})

test('what cannot be drawn is refused', async () => {
  const bad: readonly (readonly [PageItem, string])[] = [
    [{ kind: 'stroke', path: box, widthMm: 0 }, 'widthMm: expected'],
    [{ kind: 'stroke', path: box, widthMm: 1, dashesMm: [0] }, 'dashesMm: expected'],
    [{ kind: 'fill', path: box, tintShare: 1.01 }, 'tintShare: expected'],
    [fill([{ kind: 'line', xMm: 1, yMm: 2 }]), 'path: expected a move first'],
    [fill(linePath([{ xMm: 1, yMm: 1e7 }])), 'yMm: expected'],
    [{ kind: 'group', transform: moveBy({ xMm: 1, yMm: 1 }), items: [fill([])] }, 'path: expected'],
  ]
  for (const [item, words] of bad) await expect(written([item])).rejects.toThrow(words)
})
