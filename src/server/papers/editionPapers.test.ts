import { expect, test } from 'vitest'
import { near } from '../../core/units/near.testing.ts'
import { openLetters } from '../../decode/glyphs.ts'
import type { FilmPage } from '../../formats/filmPage.ts'
import { writeFilmPdf } from '../../formats/filmPdf.ts'
import { byPdfium, byPdfjs, checkedByQpdf } from '../../formats/pdfReaders.testing.ts'
import { memorySink, testDeflater } from '../../formats/sink.testing.ts'
import { type EditionPaper, editionCardPages } from '../../workflow/papers/editionCard.ts'
import { type PlanOnPaper, printPlanPages } from '../../workflow/papers/editionPlan.ts'
import { tallies } from '../../workflow/papers/editionTally.ts'
import { PAPERS } from '../../workflow/papers/paperSizes.ts'
import { codeSquaresOf } from './codeSquares.ts'

const ABOUT = {
  code: 'K4',
  name: 'Kettle and three pears',
  square: codeSquaresOf('http://192.168.100.23:4680/tickets/01m8hx1ypf9f7qz7xt9ezwpb60'),
  shop: { name: 'Quillfield Print Room', demo: true },
}
const EDITION: EditionPaper = {
  owner: 'Tamsin Ore',
  paper: 'cream cartridge, 250 g',
  wanted: 20,
  card: null,
  closedOn: null,
  layers: [],
  about: ABOUT,
  date: '2026-11-09',
}
const layer = (pulled: number): EditionPaper['layers'][number] => ({
  place: 1,
  shortName: 'K4-W',
  ink: 'warm grey',
  recipe: null,
  planned: '150 g mixing white and 21 g black',
  screen: 'screen 8, 77-55',
  pulled,
  good: pulled,
  spoils: [],
  colour: null,
})

async function pdfOf(pages: readonly FilmPage[]): Promise<Uint8Array> {
  const { sink, bytes } = memorySink()
  await writeFilmPdf(pages, { sink, deflater: testDeflater })
  return bytes()
}

/** How many separate dark strokes a row of the rendered page crosses. */
async function strokesAt(page: FilmPage, yMm: number): Promise<number> {
  const widthPx = 1680 // 8 pixels a mm
  const { grey } = await byPdfium(await pdfOf([page]), { widthPx, heightPx: 2376 })
  const row = grey.subarray(Math.round(8 * yMm) * widthPx, (Math.round(8 * yMm) + 1) * widthPx)
  return row.reduce(
    (sum, value, at) => sum + (value < 128 && (row[at - 1] ?? 255) >= 128 ? 1 : 0),
    0,
  )
}

test('oracle iso216: an edition card is a sound A4 sheet to other readers, also with many layers', async () => {
  const letters = await openLetters()
  const pdf = await pdfOf(editionCardPages({ ...EDITION, layers: [layer(24)] }, { letters }))
  expect(await checkedByQpdf(pdf)).toBe(0)
  const { view } = await byPdfjs(pdf)
  near((view[2] * 25.4) / 72, 210, { within: 0.01, because: 'true to 0.01 mm' })
  near((view[3] * 25.4) / 72, 297, { within: 0.01, because: 'true to 0.01 mm' })
  const many = Array.from({ length: 9 }, () => layer(24))
  expect(editionCardPages({ ...EDITION, layers: many }, { letters }).length).toBeGreaterThan(1)
})

test('a tally has as many strokes as sheets, as an independent reader draws it', async () => {
  for (const sheets of [24, 7]) {
    const page = { ...PAPERS.a4, items: tallies(sheets).items(50) }
    // half way down, where a fifth stroke stands between the second and the third
    expect(await strokesAt(page, 52.5)).toBe(sheets)
  }
  expect(tallies(0).items(50)).toEqual([])
  expect(tallies(9000).heightMm).toBe(0)
})

test('a print plan draws a mixing card for each layer with a recipe', async () => {
  const letters = await openLetters()
  const line = { says: 'black: mix 190 g.', why: ['Its film covers 100 cm².'] }
  const plan = {
    lines: [line],
    layers: [
      { place: 1, shortName: 'K4-B', line, parts: [{ name: 'black', grams: 190.4 }] },
      { place: 2, shortName: 'K4-W', line, parts: null },
    ],
    about: ABOUT,
    date: '2026-11-09',
    units: 'metric',
  } as const
  const pdf = await pdfOf(printPlanPages(plan, { letters }))
  expect(await checkedByQpdf(pdf)).toBe(0)
  const items = (parts: PlanOnPaper['layers']): number =>
    printPlanPages({ ...plan, layers: parts }, { letters })[0]?.items.length ?? 0
  const without = plan.layers.map((each) => ({ ...each, parts: null }))
  expect(items(plan.layers)).toBeGreaterThan(items(without))
})
