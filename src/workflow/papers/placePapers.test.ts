import { beforeAll, expect, test } from 'vitest'
import { checkPlaced } from '../../core/placement/check.ts'
import type { PlacementProblem } from '../../core/placement/problem.ts'
import { near } from '../../core/units/near.testing.ts'
import { openLetters } from '../../decode/glyphs.ts'
import { writeFilmPdf } from '../../formats/filmPdf.ts'
import type { Letters } from '../../formats/letters.ts'
import { byPdfium, byPdfjs, checkedByQpdf } from '../../formats/pdfReaders.testing.ts'
import { memorySink, testDeflater } from '../../formats/sink.testing.ts'
import { type PlacePaper, placePlanPages } from './placePlan.ts'
import { placeTemplatePages } from './placeTemplate.ts'
import { tilesFor } from './placeTiles.ts'

// Only what is drawn is measured here: pages as another program renders them, ten pixels a millimetre.

const PER_MM = 10
const SHEET = { widthMm: 210, heightMm: 297 }
const problem: PlacementProblem = {
  frame: { insideWidthMm: 500, insideHeightMm: 700 },
  films: [
    {
      name: 'kettle',
      ...SHEET,
      turn: 'quarter',
      marks: { xMm: 11, yMm: 13, widthMm: 180, heightMm: 260 },
    },
  ],
  clearance: { frameMm: 150, betweenMm: 150 },
  keepOut: [{ xMm: 398, yMm: 540, widthMm: 52, heightMm: 96 }],
}
const placed = [{ xMm: 143.7, yMm: 201.4, turned: false }]
const PAPER: PlacePaper = {
  problem,
  placed,
  names: ['K4-B'],
  screen: '14',
  check: checkPlaced(problem, placed),
  shop: { name: 'Quillfield Print Room', demo: true },
  paper: 'a4',
  date: '2026-11-09',
}

let letters: Letters
beforeAll(async () => {
  letters = await openLetters()
})

type Pages = ReturnType<typeof placePlanPages>
async function pdfOf(pages: Pages): Promise<Uint8Array> {
  const { sink, bytes } = memorySink()
  await writeFilmPdf(pages, { sink, deflater: testDeflater, ink: 'grey' })
  return bytes()
}

type Window = Readonly<{ xMm: number; yMm: number; widthMm: number; heightMm: number }>

/** The middles of strokes across a window of a rendered page, in mm: upright ones along x, level ones along y. */
async function strokes(
  pdf: Uint8Array,
  {
    page,
    pages,
    along,
    window,
  }: Readonly<{ page: number; pages: Pages; along: 'x' | 'y'; window: Window }>,
): Promise<readonly number[]> {
  const size = pages[page] ?? { widthMm: 0, heightMm: 0 }
  const px = (mm: number): number => Math.round(mm * PER_MM)
  const [widthPx, heightPx] = [px(window.widthMm), px(window.heightMm)]
  const { grey } = await byPdfium(pdf, {
    page,
    widthPx,
    heightPx,
    window: {
      xPx: px(window.xMm),
      yPx: px(window.yMm),
      pageWidthPx: px(size.widthMm),
      pageHeightPx: px(size.heightMm),
    },
  })
  const [long, deep] = along === 'x' ? [widthPx, heightPx] : [heightPx, widthPx]
  const dark = Array.from({ length: long }, (_, at) => {
    let sum = 0
    for (let beside = 0; beside < deep; beside++) {
      sum += 255 - (grey[along === 'x' ? beside * widthPx + at : at * widthPx + beside] ?? 255)
    }
    return sum / (255 * deep)
  })
  const found: number[] = []
  for (let at = 0; at < long; at++) {
    if ((dark[at] ?? 0) < LEAST_DARK) continue
    let [weight, moment] = [0, 0]
    for (; (dark[at] ?? 0) >= LEAST_DARK; at++) {
      weight += dark[at] ?? 0
      moment += (dark[at] ?? 0) * (at + 0.5)
    }
    found.push((along === 'x' ? window.xMm : window.yMm) + moment / weight / PER_MM)
  }
  return found
}

/** Of a column or row of the window: level dashes are less, an upright stroke or dash is more. */
const LEAST_DARK = 0.12
const TENTH = { within: 0.1, because: 'what is drawn is measured to a tenth of a millimetre' }

test.each([
  ['a4', 210, 4],
  ['letter', 215.9, 5],
] as const)(
  'oracle iso216 and ansi-y14, %s: the plan is a sound sheet, and measures as another program renders it',
  async (paper, widthMm, by) => {
    const pages = placePlanPages({ ...PAPER, paper }, { letters })
    const pdf = await pdfOf(pages)
    expect(await checkedByQpdf(pdf)).toBe(0)
    const { view } = await byPdfjs(pdf)
    near((view[2] * 25.4) / 72, widthMm, { within: 0.01, because: 'true to 0.01 mm' })
    // A band across the sheet's upper part, above its dimension lines at the sides.
    const across = await strokes(pdf, {
      page: 0,
      pages,
      along: 'x',
      window: { xMm: 20, yMm: 120, widthMm: 170, heightMm: 4 },
    })
    const [left = 0, sheet = 0] = across
    const right = across.at(-1) ?? 0
    near(right - left, 500 / by, TENTH)
    near(sheet - left, 143.7 / by, TENTH)
    near((across.at(-2) ?? 0) - left, (143.7 + 210) / by, TENTH)
  },
)

test('a template of true size is measured from sheet to sheet, over a seam, by its own crosses', async () => {
  const pages = placeTemplatePages(PAPER, { letters })
  const pdf = await pdfOf(pages)
  const { columns, rows, page } = tilesFor({ widthMm: 500, heightMm: 700 }, { paper: 'a4' })
  expect(pages).toHaveLength(1 + columns * rows)
  expect(columns * rows).toBeLessThanOrEqual(12)
  const sheetAt = (column: number, row: number): number => 1 + row * columns + column
  // From the frame's upper line down to the sheet's lower edge, which lies on the next sheet.
  const down = async (row: number) =>
    strokes(pdf, {
      page: sheetAt(0, row),
      pages,
      along: 'y',
      window: { xMm: 168, yMm: 5, widthMm: 5, heightMm: page.heightMm - 32 },
    })
  const [frame = 0, ...above] = await down(0)
  const laidOn = above.at(-1) ?? 0
  const [cut = 0, ...below] = await down(1)
  const lengths = below.map((at) => laidOn - frame + at - cut)
  near(lengths.find((mm) => Math.abs(mm - 498.4) < 3) ?? 0, 201.4 + 297, TENTH)
  const bar = await strokes(pdf, {
    page: sheetAt(0, 0),
    pages,
    along: 'x',
    // the upper half of its longest ticks alone
    window: { xMm: 5, yMm: page.heightMm - 24.8, widthMm: 112, heightMm: 1 },
  })
  near((bar.at(-1) ?? 0) - (bar[0] ?? 0), 100, TENTH)
})

test('a frame that would take too many sheets is refused in a sentence, and long lists get a second sheet', () => {
  expect(() => tilesFor({ widthMm: 4000, heightMm: 3000 }, { paper: 'letter' })).toThrow(
    /takes \d+ sheets, and 60 are printed at most/,
  )
  const many = Array.from({ length: 9 }, (_, at) => ({
    ...SHEET,
    name: `film ${at}`,
    turn: 'quarter' as const,
  }))
  const wide = { ...problem, films: many, frame: { insideWidthMm: 3000, insideHeightMm: 900 } }
  const laid = many.map((_, at) => ({ xMm: 20 + at * 300, yMm: 300, turned: at % 2 === 1 }))
  const paper = {
    ...PAPER,
    problem: wide,
    placed: laid,
    names: many.map(({ name }) => name),
    check: checkPlaced(wide, laid),
  }
  expect(placePlanPages(paper, { letters })).toHaveLength(2)
})
