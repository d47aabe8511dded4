import fc from 'fast-check'
import { beforeAll, describe, expect, test } from 'vitest'
import { near } from '../../core/units/near.testing.ts'
import { openLetters } from '../../decode/glyphs.ts'
import type { FilmPage, PageItem } from '../../formats/filmPage.ts'
import { joined, moved, type Transform, UNMOVED } from '../../formats/pagePath.ts'
import { byPdfium, byPdfjs, checkedByQpdf } from '../../formats/pdfReaders.testing.ts'
import { type Drawn, drawn, pdfOf } from './drawn.testing.ts'
import { type TestFilm, testFilmPage } from './testFilm.ts'
import { testFilmCoverMm } from './testFilmLayout.ts'

const letters = await openLetters()

const FILM: TestFilm = {
  bandCounts: [26, 31, 37, 44, 52, 62],
  countsIn: 'light units',
  setUp: 'For 90-48 yellow, the house coating, the big lamp: what does the new bucket want?',
  shop: { name: 'Quillfield Print Room', demo: true },
  number: 'S-12',
  date: '2026-11-09',
}
const REEDS_MM = [0.06, 0.08, 0.1, 0.15, 0.2, 0.3, 0.5, 0.7, 1]

const pageOf = (film: TestFilm): FilmPage => testFilmPage(film, { letters })
const A4_PDF = await pdfOf(pageOf(FILM))

describe('the sheet', () => {
  test.each([
    ['oracle iso216: A4 is 210 by 297 mm', 'a4', 210, 297],
    ['oracle ansi-y14: Letter is 8.5 by 11 inches', 'letter', 215.9, 279.4],
  ] as const)('%s, in three readers', async (_, paper, widthMm, heightMm) => {
    const pdf = paper === 'a4' ? A4_PDF : await pdfOf(pageOf({ ...FILM, paper }))
    expect(await checkedByQpdf(pdf)).toBe(0)
    const { view, pages } = await byPdfjs(pdf)
    expect(pages).toBe(1)
    const within = { within: 0.01, because: 'the contract: true to 0.01 mm' }
    near((view[2] * 25.4) / 72, widthMm, within)
    near((view[3] * 25.4) / 72, heightMm, within)
    const { width, height, neutral } = await byPdfium(pdf, { widthPx: 400, heightPx: 500 })
    near((width * 25.4) / 72, widthMm, within)
    near((height * 25.4) / 72, heightMm, within)
    expect(neutral).toBe(true)
  })

  test('is black ink alone: one colour space, and all of it or none', async () => {
    const { operators } = await byPdfjs(A4_PDF)
    const inks = operators.filter(([name]) => /Color|Gray|CMYK/.test(name))
    expect(new Set(inks.map(([, values]) => JSON.stringify(values)))).toEqual(
      new Set(inks.slice(0, 2).map(([, values]) => JSON.stringify(values))),
    )
    const { grey } = await byPdfium(A4_PDF, { widthPx: 2100, heightPx: 2970 })
    const [dark, light] = [
      grey.filter((value) => value < 30).length,
      grey.filter((value) => value > 225).length,
    ]
    expect((dark + light) / grey.length).toBeGreaterThan(0.95)
  })

  test('is the same to the byte every time', async () => {
    expect(Buffer.compare(await pdfOf(pageOf(FILM)), A4_PDF)).toBe(0)
  })
})

describe('measured on what pdfium draws at 200 pixels to the mm', () => {
  const edges = testFilmCoverMm({ bands: 6 })
  const [top, second] = edges
  const pdf = A4_PDF
  let band: Drawn

  beforeAll(async () => {
    band = await drawn(pdf, { xMm: 45, yMm: second - 6, widthMm: 60, heightMm: 6, pxPerMm: 200 })
  })

  test('reeds are as wide as is said above them', () => {
    for (const above of [2.2, 4, 5.5]) {
      const widths = band.across(second - above).map(({ widthMm }) => widthMm)
      const reeds = widths.slice(0, REEDS_MM.length)
      expect(reeds).toHaveLength(9)
      for (const [at, expected] of REEDS_MM.entries()) {
        near(reeds[at], expected, { within: 0.01, because: 'the film must be true to 0.01 mm' })
      }
    }
  })

  test('the comb has three teeth of each width, as far apart as they are wide', async () => {
    const middle = (top + second) / 2
    const comb = await drawn(pdf, {
      xMm: 102,
      yMm: middle - 9,
      widthMm: 28.5,
      heightMm: 18,
      pxPerMm: 200,
    })
    const teeth = comb.across(middle - 4.4) // between spine and the shortest tip
    expect(teeth).toHaveLength(2 + 27)
    const widths = teeth.slice(1, -1).map(({ widthMm }) => widthMm)
    for (const [at, expected] of REEDS_MM.flatMap((width) => [width, width, width]).entries()) {
      near(widths[at], expected, { within: 0.01, because: 'the film must be true to 0.01 mm' })
    }
    for (let group = 0; group < 9; group++) {
      const [first, next] = teeth.slice(1 + 3 * group)
      near(next.middleMm - first.middleMm, 2 * REEDS_MM[group], {
        within: 0.01,
        because: 'a tooth and a gap of its width',
      })
    }
    // cut out of black: gaps where the other has teeth
    const cut = comb.across(middle + 2.5)
    expect(cut).toHaveLength(1 + 27)
    const gaps = cut.slice(1).map(({ middleMm, widthMm }, at) => {
      const before = cut[at]
      return middleMm - widthMm / 2 - (before.middleMm + before.widthMm / 2)
    })
    for (const [at, expected] of REEDS_MM.flatMap((width) => [width, width, width]).entries()) {
      near(gaps[at], expected, { within: 0.01, because: 'the film must be true to 0.01 mm' })
    }
  })

  test('the scale bar is 100 mm from first to last tick', async () => {
    const below = edges[6]
    const bar = await drawn(pdf, {
      xMm: 10,
      yMm: below + 5,
      widthMm: 105,
      heightMm: 6,
      pxPerMm: 100,
    })
    const ticks = bar.across(below + 10.6) // over the beam, where all ticks are
    expect(ticks).toHaveLength(101)
    const [first, last] = [ticks[0], ticks[100]]
    near(last.middleMm - first.middleMm, 100, { within: 0.01, because: 'a ruler is laid on it' })
    ticks.forEach(({ middleMm }, at) =>
      near(middleMm - first.middleMm, at, { within: 0.01, because: 'every tick is a millimetre' }),
    )
  })

  test('the points at both sides stand at the band edges that are told', async () => {
    for (const [paper, widthMm, bands] of [
      ['a4', 210, 7],
      ['letter', 215.9, 9],
    ] as const) {
      const counts = Array.from({ length: bands }, (_, at) => 20 + 7 * at)
      const film = await pdfOf(pageOf({ ...FILM, paper, bandCounts: counts }))
      const told = testFilmCoverMm({ bands, paper })
      const low = told[0] - 4
      const heightMm = told[bands] - told[0] + 8
      for (const side of [5.1, widthMm - 5.1]) {
        const edge = await drawn(film, {
          xMm: side - 0.5,
          yMm: low,
          widthMm: 1,
          heightMm,
          pxPerMm: 100,
        })
        const points = edge.down(side).map(({ middleMm }) => middleMm)
        expect(points).toHaveLength(bands + 1)
        points.forEach((yMm, at) =>
          near(yMm, told[at], { within: 0.01, because: 'the card is laid on them' }),
        )
      }
    }
  })

  test('bands are equally tall', () => {
    const heights = edges.slice(1).map((edge, at) => edge - edges[at])
    for (const height of heights) near(height, heights[0], { within: 1e-9, because: 'rounding' })
  })

  test('the F reads from above: its stem is at the left, its arms at the upper right', async () => {
    const mark = await drawn(pdf, { xMm: 178, yMm: 9, widthMm: 22, heightMm: 24, pxPerMm: 20 })
    const share = (xMm: number, yMm: number): number =>
      mark.blackShare({ xMm, yMm, widthMm: 5, heightMm: 4 })
    expect(share(180.6, 11)).toBeGreaterThan(0.95) // stem
    expect(share(180.6, 27)).toBeGreaterThan(0.95)
    expect(share(189, 10.5)).toBeGreaterThan(0.9) // arm
    expect(share(189, 27)).toBe(0) // an E would be black here, a mirrored F too
    expect(share(193, 24)).toBe(0)
  })

  test('the wedge’s place is clear, and lies above all that is ever covered', async () => {
    const inside = { xMm: 13, yMm: 50, widthMm: 144, heightMm: 11 }
    const place = await drawn(pdf, { xMm: 11, yMm: 48, widthMm: 148, heightMm: 15, pxPerMm: 20 })
    expect(place.blackShare(inside)).toBe(0)
    expect(place.down(12)[0].middleMm).toBeLessThan(53) // its corner is drawn
    expect(top).toBeGreaterThan(49 + 13)
  })

  test('where one draws by hand nothing is printed but dashes at the band edges', async () => {
    const patch = await drawn(pdf, {
      xMm: 164,
      yMm: top + 1,
      widthMm: 33,
      heightMm: edges[6] - top - 2,
      pxPerMm: 20,
    })
    for (let at = 0; at < 6; at++) {
      const clear = { xMm: 164, yMm: edges[at] + 1, widthMm: 33, heightMm: edges[1] - top - 2 }
      expect(patch.blackShare(clear)).toBe(0)
    }
    expect(patch.across(edges[3]).length).toBeGreaterThan(3)
  })
})

/** The places of all paths, with what a stroke adds. */
function reachOf(items: readonly PageItem[], through: Transform = UNMOVED): readonly number[][] {
  return items.flatMap((item) => {
    if (item.kind === 'group') return reachOf(item.items, joined(through, item.transform))
    if (item.kind === 'bitmap') return []
    const pen = item.kind === 'stroke' ? item.widthMm / 2 : 0
    const places = item.path.flatMap((part) =>
      part.kind === 'close' ? [] : [moved(part, through)],
    )
    const [xs, ys] = [places.map(({ xMm }) => xMm), places.map(({ yMm }) => yMm)]
    return [
      [Math.min(...xs) - pen, Math.min(...ys) - pen, Math.max(...xs) + pen, Math.max(...ys) + pen],
    ]
  })
}

const films = fc.record({
  bandCounts: fc.uniqueArray(
    fc.oneof(
      fc.integer({ min: 1, max: 9999 }),
      fc.integer({ min: 1, max: 999 }).map((n) => n / 10),
    ),
    { minLength: 3, maxLength: 12 },
  ),
  countsIn: fc.constantFrom('light units' as const, 'seconds' as const),
  paper: fc.constantFrom('a4' as const, 'letter' as const),
  setUp: fc.constantFrom(
    '',
    'For soft pencil.',
    'For '.concat('a long set-up of many words '.repeat(9)),
  ),
  wedge: fc.record({
    widthMm: fc.double({ min: 10, max: 146, noNaN: true }),
    heightMm: fc.double({ min: 5, max: 25, noNaN: true }),
  }),
  shop: fc.record({ name: fc.string({ unit: 'binary', maxLength: 60 }), demo: fc.boolean() }),
  number: fc.string({ maxLength: 12 }),
})

test('invariant: whatever it says, its ink stays where printers can print', () => {
  fc.assert(
    fc.property(films, (film) => {
      const { widthMm, heightMm, items } = pageOf(film)
      for (const [left, top, right, bottom] of reachOf(items)) {
        expect(left).toBeGreaterThanOrEqual(4.5)
        expect(top).toBeGreaterThanOrEqual(4.5)
        expect(right).toBeLessThanOrEqual(widthMm - 4.5)
        expect(bottom).toBeLessThanOrEqual(heightMm - 4.5)
      }
    }),
    { numRuns: 20 },
  )
})

test('invariant: bands are told where they are, under the wedge and above the scale', () => {
  fc.assert(
    fc.property(films, ({ bandCounts, paper, wedge }) => {
      const bands = bandCounts.length
      const edges = testFilmCoverMm({ bands, paper, wedge })
      expect(edges).toHaveLength(bands + 1)
      expect(edges[0]).toBeGreaterThan(49 + wedge.heightMm)
      for (let at = 1; at < edges.length; at++) {
        expect(edges[at] - edges[at - 1]).toBeGreaterThan(7.5) // two fingers’ room for the card’s edge
      }
    }),
  )
})

describe('what cannot be is refused by name', () => {
  test.each([
    [{ bandCounts: [20, 30] }, 'bandCounts: expected a whole number from 3 to 12 bands, got 2'],
    [{ bandCounts: Array.from({ length: 13 }, (_, at) => 20 + at) }, 'got 13'],
    [{ bandCounts: [20, 30, 30] }, 'bandCounts: expected no two alike'],
    [{ bandCounts: [20, 30, Number.NaN] }, 'bandCounts: expected 0.01 to 1000000 lu'],
    [{ wedge: { widthMm: 200, heightMm: 13 } }, 'wedge.widthMm: expected 10 to 146 mm, got 200'],
    [{ wedge: { widthMm: 100, heightMm: 60 } }, 'wedge.heightMm'],
    [{ date: '2026-02-30' }, 'day: expected a day like 2026-11-09, got 2026-02-30'],
  ])('%o', (wrong, message) => {
    expect(() => pageOf({ ...FILM, ...wrong })).toThrow(message)
  })
})
