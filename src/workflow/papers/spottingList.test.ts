import { describe, expect, test } from 'vitest'
import type { Finding } from '../../core/inspection/findings.ts'
import { near } from '../../core/units/near.testing.ts'
import { openLetters } from '../../decode/glyphs.ts'
import { byPdfium, byPdfjs, checkedByQpdf } from '../../formats/pdfReaders.testing.ts'
import { planeOf } from '../../raster/inspect/plane.ts'
import { drawn, pdfOf } from './drawn.testing.ts'
import { type SpottingList, spottingListPage } from './spottingList.ts'

const letters = await openLetters()

/** 160 by 120 mm, a bar of 40 by 6 mm with its top left at (60, 50). */
function barFilm(): SpottingList['marks'] {
  const marks = planeOf(800, 600)
  for (let y = 250; y < 280; y += 1) marks.values.fill(1, y * 800 + 300, y * 800 + 500)
  return marks
}

const FOUND: readonly Finding[] = [
  { kind: 'veil', xMm: 80, yMm: 53, areaMm2: 120, widthUm: 6000 },
  { kind: 'pinhole', xMm: 21.5, yMm: 100.25, areaMm2: 0.5, widthUm: 800 },
]

const LIST: SpottingList = {
  marks: barFilm(),
  cellUm: 200,
  findings: FOUND,
  shop: { name: 'Quillfield Print Room', demo: true },
  title: 'Night heron, black',
  date: '2026-11-09',
}

const PDF = await pdfOf(spottingListPage(LIST, { letters }))

/** The picture stands in the middle of A4, 36 mm from its top. */
const LEFT = (210 - 160) / 2
const TOP = 36

describe('the spotting list', () => {
  test('oracle iso216: a picture of 160 by 120 mm goes on A4, sound to other readers', async () => {
    expect(await checkedByQpdf(PDF)).toBe(0)
    const { view } = await byPdfjs(PDF)
    near((view[2] * 25.4) / 72, 210, { within: 0.01, because: 'true to 0.01 mm' })
    near((view[3] * 25.4) / 72, 297, { within: 0.01, because: 'true to 0.01 mm' })
  })

  test('a ring has its place in its middle, at true size', async () => {
    const { across, down } = await drawn(PDF, {
      xMm: LEFT + 10,
      yMm: TOP + 92,
      widthMm: 24,
      heightMm: 18,
      pxPerMm: 40,
    })
    const walls = across(TOP + 100.25).map(({ middleMm }) => middleMm)
    near((walls[0] + walls[1]) / 2, LEFT + 21.5, { within: 0.05, because: 'pixels of 0.025 mm' })
    near(walls[1] - walls[0], 6, { within: 0.05, because: 'the least ring is 6 mm across' })
    const [top, bottom] = down(LEFT + 21.5).map(({ middleMm }) => middleMm)
    near((top + bottom) / 2, TOP + 100.25, { within: 0.05, because: 'pixels of 0.025 mm' })
  })

  test('the bar lies where the film has it, hatched', async () => {
    const bar = { xMm: LEFT + 60, yMm: TOP + 50, widthMm: 8, heightMm: 6 }
    const look = await drawn(PDF, {
      ...bar,
      xMm: bar.xMm - 4,
      yMm: bar.yMm - 2,
      widthMm: 14,
      heightMm: 12,
      pxPerMm: 40,
    })
    const box = look.inkIn({ ...bar, widthMm: 3 })
    near(box?.topMm ?? 0, TOP + 50, { within: 0.06, because: 'pixels of 0.025 mm' })
    const share = look.blackShare(bar)
    expect(share).toBeGreaterThan(0.15)
    expect(share).toBeLessThan(0.45)
  })

  test('a picture larger than A3 makes a sheet of its own', async () => {
    const large = { ...LIST, cellUm: 600 }
    const page = spottingListPage(large, { letters })
    expect(page.widthMm).toBeCloseTo(480 + 24, 6)
    const { neutral } = await byPdfium(await pdfOf(page), { widthPx: 300, heightPx: 300 })
    expect(neutral).toBe(true)
  })

  test('a day that cannot be is refused', () => {
    expect(() => spottingListPage({ ...LIST, date: '2026-02-30' }, { letters })).toThrow(RangeError)
  })
})
