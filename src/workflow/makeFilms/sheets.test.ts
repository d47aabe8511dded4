import { expect, test } from 'vitest'
import { near } from '../../core/units/near.testing.ts'
import type { Letters } from '../../formats/letters.ts'
import type { PageLayout } from './pageLayout.ts'
import { filmPages, sheetCount } from './sheets.ts'

const PIXEL_MM = 0.1
const layout = {
  widthPx: 2000,
  heightPx: 700,
  pixelMm: PIXEL_MM,
  widthMm: 200,
  heightMm: 70,
} as PageLayout
/** No words: they are looked at in the finished files. */
const letters = { path: () => [], widthMm: () => 0 } as unknown as Letters

/** A film whose pixel is black where its column is odd in the hundreds. */
const film = () => ({
  widthPx: 2000,
  heightPx: 700,
  pixelUm: 100,
  bands: (async function* () {
    await Promise.resolve()
    for (let y = 0; y < 700; y++) {
      const bits = new Uint8Array(250)
      for (let x = 0; x < 2000; x++)
        if (Math.floor(x / 100) % 2 === 1) bits[x >> 3] |= 128 >> (x & 7)
      yield { rows: 1, bits }
    }
  })(),
})

test('parts cut at their lines meet edge to edge, and no line lies on the artwork', async () => {
  const sheet = { widthMm: 100, heightMm: 110, overlapMm: 10, cutMarks: true }
  const pages = filmPages(film, { layout, sheet, name: 'red', letters })
  expect(pages).toHaveLength(3)
  const cut: number[] = []
  for (const { items } of pages) {
    const bitmap = items.find((item) => item.kind === 'bitmap')
    if (bitmap?.kind !== 'bitmap') throw new Error('no bitmap')
    const lines = items.flatMap((item) => (item.kind === 'stroke' ? [item.path] : []))
    const xs = lines.map(([start]) => (start?.kind === 'move' ? start.xMm : Number.NaN))
    for (const path of lines) {
      for (const step of path) {
        if (!('yMm' in step)) continue
        const isOff =
          step.yMm < bitmap.yMm || step.yMm > bitmap.yMm + bitmap.film.heightPx * PIXEL_MM
        expect(isOff).toBe(true)
      }
    }
    const first = pages[0] === undefined || items === pages[0].items
    const last = items === pages.at(-1)?.items
    const [left, right] = [Math.min(...xs), Math.max(...xs)].map((x) =>
      Math.round((x - bitmap.xMm) / PIXEL_MM),
    )
    const [from, to] = [first ? 0 : (left ?? 0), last ? bitmap.film.widthPx : (right ?? 0)]
    for await (const band of bitmap.film.bands) {
      for (let x = from; x < to; x++) cut.push((band.bits[x >> 3] >> (7 - (x & 7))) & 1)
      break
    }
  }
  expect(cut).toHaveLength(2000)
  expect(cut.every((bit, x) => bit === Math.floor(x / 100) % 2)).toBe(true)
})

test('without cut marks a part fills its sheet', () => {
  const sheet = { widthMm: 100, heightMm: 100, overlapMm: 10 }
  const [first] = filmPages(film, { layout, sheet, name: 'red', letters })
  const [bitmap, ...others] = first?.items ?? []
  expect(others).toEqual([])
  if (bitmap?.kind !== 'bitmap') throw new Error('no bitmap')
  near(bitmap.film.widthPx * PIXEL_MM, 100, { within: PIXEL_MM, because: 'the sheet' })
})

// By hand: of 73.7 mm sheets that share 12 mm each begins 61.7 mm, 617 pixels, after the one before.
test('neighbours share as much as was asked, to the pixel', async () => {
  const sheet = { widthMm: 73.7, heightMm: 73.7, overlapMm: 12 }
  const isBlack = (x: number): number => ((x * 2654435761) >>> 13) & 1
  const noise = () => ({
    ...film(),
    bands: (async function* () {
      await Promise.resolve()
      const bits = new Uint8Array(250)
      for (let x = 0; x < 2000; x++) bits[x >> 3] |= isBlack(x) << (7 - (x & 7))
      for (let y = 0; y < 700; y++) yield { rows: 1, bits }
    })(),
  })
  const pages = filmPages(noise, { layout, sheet, name: 'red', letters })
  expect(pages).toHaveLength(4)
  for (const [at, { items }] of pages.entries()) {
    const [bitmap] = items
    if (bitmap?.kind !== 'bitmap') throw new Error('no bitmap')
    const { widthPx, bands } = bitmap.film
    expect(widthPx).toBe(at < 3 ? 737 : 2000 - 3 * 617)
    for await (const { bits } of bands) {
      const seen = Array.from({ length: widthPx }, (_, x) => (bits[x >> 3] >> (7 - (x & 7))) & 1)
      expect(seen).toEqual(Array.from({ length: widthPx }, (_, x) => isBlack(617 * at + x)))
      break
    }
  }
})

test('a sheet lies crosswise where the film takes fewer, and one that is not parted needs no rim', () => {
  const sheet = { widthMm: 75, heightMm: 205, overlapMm: 10, cutMarks: true }
  expect(sheetCount(layout, sheet)).toBe(1)
  const [page, ...others] = filmPages(film, { layout, sheet, name: 'red', letters })
  expect(others).toEqual([])
  expect([page?.widthMm, page?.heightMm]).toEqual([205, 75])
  expect(page?.items.map((item) => (item.kind === 'bitmap' ? [item.xMm, item.yMm] : []))).toEqual([
    [2.5, 2.5],
  ])
})
