import { expect, test } from 'vitest'
import { stepsOf } from '../../core/runSheet/ownList.ts'
import { near } from '../../core/units/near.testing.ts'
import { openLetters } from '../../decode/glyphs.ts'
import { byPdfjs, checkedByQpdf } from '../../formats/pdfReaders.testing.ts'
import { drawn, pdfOf, type Stretch } from './drawn.testing.ts'
import { type RunSheet, runSheetPages } from './runSheet.ts'

const letters = await openLetters()
const ABOUT = {
  subject: 'Kettle and three pears',
  screen: 'screen 14',
  countsIn: 'light units',
  dose: { value: 42.3, low: 36, high: 47 },
} as const
const SHEET: RunSheet = {
  ...ABOUT,
  unit: 'the big lamp',
  steps: stepsOf({ ...ABOUT, litSec: { low: 90, high: 120 }, wedgeSteps: 21 }),
  shop: { name: 'Quillfield Print Room', demo: true },
  date: '2026-11-28',
}

const A5 = { xMm: 0, yMm: 0, widthMm: 148, heightMm: 210 }

/** A stroke down the side of a box, between the head of the sheet and its foot. */
const isBox = ({ middleMm, widthMm }: Stretch): boolean =>
  middleMm > 43 && middleMm < 195 && Math.abs(widthMm - 4.55) < 0.2

test('oracle iso216: a run sheet is sound A5, the lamp on the first sheet, the sink on one of its own', async () => {
  const pages = runSheetPages(SHEET, { letters })
  expect(pages).toHaveLength(2)
  for (const page of pages) {
    const pdf = await pdfOf(page)
    expect(await checkedByQpdf(pdf)).toBe(0)
    const { view } = await byPdfjs(pdf)
    near((view[2] * 25.4) / 72, 148, { within: 0.01, because: 'true to 0.01 mm' })
    near((view[3] * 25.4) / 72, 210, { within: 0.01, because: 'true to 0.01 mm' })
  }
})

test('each step has its box for a pencil, empty, and nothing runs past the margins or into the foot', async () => {
  const [page] = runSheetPages(SHEET, { letters })
  if (page === undefined) throw new RangeError('pages: expected at least 1, got 0')
  const seen = await drawn(await pdfOf(page), { ...A5, pxPerMm: 6 })
  // down the left edge of the boxes: a stroke of 4.55 mm for each step from the rack to the counter
  const boxes = seen.down(10).filter(isBox)
  expect(boxes).toHaveLength(9)
  for (const { middleMm } of boxes) {
    const inside = { xMm: 10.6, yMm: middleMm - 1.4, widthMm: 2.8, heightMm: 2.8 }
    expect(seen.blackShare(inside)).toBe(0)
  }
  for (const xMm of [0, 138.6]) {
    expect(seen.blackShare({ xMm, yMm: 20, widthMm: 9.2, heightMm: 170 })).toBe(0)
  }
  expect(seen.blackShare({ xMm: 10, yMm: 194.6, widthMm: 128, heightMm: 1.2 })).toBe(0)
})

test('a list of thirty-five steps goes on over sheets, and none is lost', async () => {
  const own = Array.from({ length: 20 }, (_, at) => ({ name: `own-${at}`, title: `Sweep ${at}` }))
  const usual = SHEET.steps.map(({ name }) => ({ name }))
  const facts = { ...ABOUT, litSec: null, wedgeSteps: 21 }
  const steps = stepsOf(facts, { list: [...usual, ...own] })
  const pages = runSheetPages({ ...SHEET, steps }, { letters })
  let boxes = 0
  for (const page of pages) {
    const pdf = await pdfOf(page)
    const seen = await drawn(pdf, { xMm: 9, yMm: 0, widthMm: 4, heightMm: 210, pxPerMm: 6 })
    boxes += seen.down(10).filter(isBox).length
  }
  expect(boxes).toBe(35)
})
