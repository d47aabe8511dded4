import UTIF from 'utif2'
import { expect, test } from 'vitest'
import { writeBilevelTiff } from '../formats/bilevelTiff.ts'
import type { FilmPage, PageItem } from '../formats/filmPage.ts'
import { writeFilmPdf } from '../formats/filmPdf.ts'
import { circlePath, linePath, rectanglePath, turnBy } from '../formats/pagePath.ts'
import { byPdfium } from '../formats/pdfReaders.testing.ts'
import { memorySink } from '../formats/sink.testing.ts'
import { openLetters } from './glyphs.ts'
import { pageRaster } from './pageRaster.ts'
import { sharp } from './pixelLibrary.ts'

const letters = await openLetters()

const lines = Array.from(
  { length: 24 },
  (_, at): PageItem => ({
    kind: 'stroke',
    widthMm: 0.06 + 0.02 * at,
    ends: (['flat', 'round', 'square'] as const)[at % 3] ?? 'flat',
    path: linePath([
      { xMm: 3 + 1.9 * at, yMm: 22 },
      { xMm: 3 + 2.1 * at, yMm: 30 },
    ]),
  }),
)

/** 50.8 mm: whole pixels at 500, 1000 and 1440 dpi. */
const PAGE: FilmPage = {
  widthMm: 50.8,
  heightMm: 50.8,
  items: [
    {
      kind: 'fill',
      path: letters.path('heron reed 42', { face: 'bold', sizeMm: 7, xMm: 2, yMm: 8 }),
    },
    {
      kind: 'fill',
      path: letters.path('marsh', { face: 'title', sizeMm: 9, xMm: 2, yMm: 18 }),
    },
    ...lines,
    {
      kind: 'fill',
      rule: 'even-odd',
      path: [
        ...circlePath({ xMm: 10, yMm: 38, radiusMm: 5.3 }),
        ...circlePath({ xMm: 11, yMm: 38, radiusMm: 3.1 }),
      ],
    },
    { kind: 'fill', tintShare: 0, path: circlePath({ xMm: 7, yMm: 36, radiusMm: 1.1 }) },
    {
      kind: 'group',
      transform: turnBy({ deg: 17, xMm: 30, yMm: 40 }),
      items: [
        {
          kind: 'stroke',
          widthMm: 0.4,
          corners: 'sharp',
          dashesMm: [2.1, 0.9],
          path: rectanglePath({ xMm: 22, yMm: 34, widthMm: 15, heightMm: 9 }),
        },
      ],
    },
  ],
}

async function bitsOf(page: FilmPage, resolutionDpi: number): Promise<Uint8Array> {
  const parts: Uint8Array[] = []
  for await (const { bits } of pageRaster(page, { resolutionDpi }).bands) parts.push(bits)
  return Uint8Array.from(Buffer.concat(parts))
}

function pixelOf(bits: Uint8Array, { widthPx }: Readonly<{ widthPx: number }>) {
  const rowBytes = Math.ceil(widthPx / 8)
  return (x: number, y: number): boolean =>
    ((bits[y * rowBytes + (x >> 3)] ?? 0) & (128 >> (x & 7))) !== 0
}

test.each([500, 1440])(
  'at %i dpi pdfium draws the same page from its PDF, but for pixels on an edge',
  async (dpi) => {
    const { widthPx, heightPx } = pageRaster(PAGE, { resolutionDpi: dpi })
    expect([widthPx, heightPx]).toEqual([2 * dpi, 2 * dpi])
    const { sink, bytes } = memorySink()
    await writeFilmPdf([PAGE], { sink })
    const { grey } = await byPdfium(bytes(), { widthPx, heightPx })
    const ours = pixelOf(await bitsOf(PAGE, dpi), { widthPx })
    const theirs = (x: number, y: number): boolean => (grey[y * widthPx + x] ?? 0) < 128
    const onEdge = (x: number, y: number): boolean =>
      [-1, 0, 1].some((dy) => [-1, 0, 1].some((dx) => theirs(x + dx, y + dy) !== theirs(x, y)))
    let [black, differing, astray] = [0, 0, 0]
    for (let y = 0; y < heightPx; y++) {
      for (let x = 0; x < widthPx; x++) {
        if (theirs(x, y)) black += 1
        if (ours(x, y) === theirs(x, y)) continue
        differing += 1
        if (!onEdge(x, y)) astray += 1
      }
    }
    expect(black).toBeGreaterThan(0.05 * widthPx * heightPx)
    expect(astray).toBe(0)
    // edges are long: 6 in 1000 of what is black at 500 dpi were seen
    expect(differing / black).toBeLessThan(dpi === 500 ? 0.008 : 0.003)
  },
  60_000,
)

test('a pixel is black where its middle is covered, so an edge is out by half a pixel at most', async () => {
  const [pixel, right] = [25.4 / 600, 17.31]
  const box = rectanglePath({ xMm: 0, yMm: 0, widthMm: right * pixel, heightMm: 4 * pixel })
  const page = { widthMm: 2.54, heightMm: 2.54, items: [{ kind: 'fill' as const, path: box }] }
  const black = pixelOf(await bitsOf(page, 600), { widthPx: 60 })
  // the middle of pixel 16 lies at 16.5, that of pixel 17 at 17.5
  expect([16, 17].map((x) => black(x, 0))).toEqual([true, false])
  expect([3, 4].map((y) => black(0, y))).toEqual([true, false])
})

test('utif2 and libtiff read the TIFF to the same bits, at its true size', async () => {
  const dpi = 600
  const film = pageRaster(PAGE, { resolutionDpi: dpi })
  const { sink, bytes } = memorySink()
  await writeBilevelTiff(film, { sink })
  const black = pixelOf(await bitsOf(PAGE, dpi), film)
  const { data, info } = await sharp(bytes())
    .extractChannel(0)
    .raw()
    .toBuffer({ resolveWithObject: true })
  expect([info.width, info.height]).toEqual([1200, 1200])
  const [picture] = UTIF.decode(bytes().buffer)
  if (picture === undefined) throw new Error('utif2 found no page')
  UTIF.decodeImage(bytes().buffer, picture)
  const rgba = UTIF.toRGBA8(picture)
  let differing = 0
  for (let y = 0; y < 1200; y++) {
    for (let x = 0; x < 1200; x++) {
      const at = y * 1200 + x
      if ((data[at] === 0) !== black(x, y) || (rgba[4 * at] === 0) !== black(x, y)) differing += 1
    }
  }
  expect(differing).toBe(0)
  expect((await sharp(bytes()).metadata()).density).toBe(600)
})

test('A4 at 1440 dpi has 200 million pixels and takes less than 200 MB', async () => {
  const words = Array.from(
    { length: 60 },
    (_, at): PageItem => ({
      kind: 'fill',
      path: letters.path('Cover all bands but the first.', {
        face: 'plain',
        sizeMm: 4,
        xMm: 12,
        yMm: 10 + 4.6 * at,
      }),
    }),
  )
  const page = { widthMm: 210, heightMm: 297, items: [...lines, ...words] }
  const film = pageRaster(page, { resolutionDpi: 1440 })
  // 210 / 25.4 · 1440 = 11905.5, 297 / 25.4 · 1440 = 16837.8
  expect([film.widthPx, film.heightPx]).toEqual([11_906, 16_838])
  const before = process.memoryUsage().rss
  let [rows, most] = [0, 0]
  for await (const band of film.bands) {
    rows += band.rows
    most = Math.max(most, process.memoryUsage().rss - before)
  }
  expect(rows).toBe(16_838)
  expect(most / 2 ** 20).toBeLessThan(200)
}, 120_000)

test('what bits cannot show is refused', () => {
  const refused =
    (item: PageItem, widthMm = 20): (() => unknown) =>
    () =>
      pageRaster({ widthMm, heightMm: 20, items: [item] }, { resolutionDpi: 720 })
  const path = circlePath({ xMm: 5, yMm: 5, radiusMm: 2 })
  expect(refused({ kind: 'fill', path, tintShare: 0.4 })).toThrow('tintShare: expected 0 or 1')
  const film = { widthPx: 8, heightPx: 1, pixelUm: 50, bands: [] }
  const bitmap: PageItem = { kind: 'bitmap', film, xMm: 0, yMm: 0 }
  const group: PageItem = {
    kind: 'group',
    transform: turnBy({ deg: 0, xMm: 0, yMm: 0 }),
    items: [bitmap],
  }
  expect(refused(group)).toThrow('bitmap: expected a page of drawings alone')
  expect(refused({ kind: 'fill', path }, 1100)).toThrow(
    'widthPx: expected 1 to 30000 px, got 31181',
  )
})
