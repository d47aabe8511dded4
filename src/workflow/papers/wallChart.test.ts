import { beforeAll, describe, expect, test } from 'vitest'
import { near } from '../../core/units/near.testing.ts'
import { openLetters } from '../../decode/glyphs.ts'
import type { FilmPage } from '../../formats/filmPage.ts'
import { byPdfium, byPdfjs, checkedByQpdf } from '../../formats/pdfReaders.testing.ts'
import { type Drawn, drawn, pdfOf } from './drawn.testing.ts'
import { type WallChart, wallChartPage } from './wallChart.ts'
import type { WallRow } from './wallChartRow.ts'

const letters = await openLetters()

const doses = Array.from({ length: 25 }, (_, at) => 25 * 6 ** (at / 24))

/** Ground from 36 up, marks open to `high`: by hand, with clean edges. */
function row(medium: string, value: number, high: number): WallRow {
  return {
    medium,
    verdict: 'works',
    dose: { value, low: 36, high },
    word: 'fairly sure',
    heard: '11 screens, 2 strips',
    cloth: {
      lowLu: 25,
      highLu: 150,
      along: Array.from({ length: 7 }, () => high),
      across: doses.map((doseLu) => ({ doseLu, share: doseLu < 36 ? 0 : 1 })),
      good: [],
      woven: [],
    },
  }
}

const CHART: WallChart = {
  shop: { name: 'Quillfield Print Room', demo: true },
  setUp: '90-48 yellow with the house coating under the big lamp',
  countsIn: 'light units',
  rows: [row('Soft pencil', 42, 47), row('Drawing ink', 54.3, 84), row('Cut film', 70, 125)],
  date: '2026-11-09',
  nextTestDue: '2026-11-23',
}

const pageOf = (chart: WallChart): FilmPage => wallChartPage(chart, { letters })

test.each([
  ['oracle iso216: A3 is 297 by 420 mm', 'a3', 297, 420],
  ['oracle ansi-y14: tabloid is 11 by 17 inches', 'tabloid', 279.4, 431.8],
] as const)('%s, in three readers', async (_, paper, widthMm, heightMm) => {
  const pdf = await pdfOf(pageOf({ ...CHART, paper }))
  expect(await checkedByQpdf(pdf)).toBe(0)
  const within = { within: 0.01, because: 'the contract: true to 0.01 mm' }
  const { view } = await byPdfjs(pdf)
  near((view[2] * 25.4) / 72, widthMm, within)
  near((view[3] * 25.4) / 72, heightMm, within)
  const { width, height, neutral } = await byPdfium(pdf, { widthPx: 297, heightPx: 420 })
  near((width * 25.4) / 72, widthMm, within)
  near((height * 25.4) / 72, heightMm, within)
  expect(neutral).toBe(true)
})

describe('measured on what pdfium draws of A3', () => {
  const PX_PER_MM = 8
  let sheet: Drawn
  let rules: readonly number[]
  let ticks: readonly number[]

  beforeAll(async () => {
    const pdf = await pdfOf(pageOf(CHART))
    const whole = { xMm: 0, yMm: 0, widthMm: 297, heightMm: 420, pxPerMm: PX_PER_MM }
    sheet = await drawn(pdf, whole)
    // in the gap between the figures and the cloths there is nothing but the rules
    rules = sheet
      .down(91)
      .filter(({ middleMm, widthMm }) => middleMm > 80 && widthMm < 0.8)
      .map(({ middleMm }) => middleMm)
      .slice(0, 4)
    ticks = sheet.across(rules[3] + 1.2).map(({ middleMm }) => middleMm)
  })

  test('doses are 20 mm high: to be read from where one works', () => {
    for (const at of [0, 1, 2]) {
      const figures = { xMm: 15, yMm: rules[at] + 1, widthMm: 70, heightMm: 33 }
      const ink = sheet.inkIn(figures)
      if (ink === null) throw new Error('there are no figures')
      const { topMm, bottomMm } = ink
      expect(bottomMm - topMm).toBeGreaterThan(19.8) // round figures stand out a little
      expect(bottomMm - topMm).toBeLessThan(21.5)
    }
  })

  test('each bar stands at its dose on the logarithmic scale that the ticks give', () => {
    // numbered 30 and 100, which stand log(100/30) apart
    const shown = [30, 40, 50, 70, 100]
    const [left, right] = [ticks[0], ticks[4]]
    expect(ticks.length).toBeGreaterThanOrEqual(shown.length)
    const at = (dose: number): number =>
      left + ((right - left) * Math.log(dose / 30)) / Math.log(100 / 30)
    shown.forEach((dose, index) =>
      near(ticks[index], at(dose), { within: 0.1, because: 'a pixel is 0.125 mm' }),
    )
    for (const [index, dose] of [42, 54.3, 70].entries()) {
      const middle = (rules[index] + rules[index + 1]) / 2 + 5
      const found = [-2, 0, 2, 4].map((off) =>
        sheet
          .across(middle + off)
          .filter(({ widthMm }) => widthMm > 1.3 && widthMm < 2)
          .some(({ middleMm }) => Math.abs(middleMm - at(dose)) < 0.15),
      )
      expect(found).toEqual([true, true, true, true])
    }
  })

  test('below the doses that hold no thread runs across, above those that open none along', () => {
    const [left, right] = [ticks[0], ticks[4]]
    const at = (dose: number): number =>
      left + ((right - left) * Math.log(dose / 30)) / Math.log(100 / 30)
    const middle = (rules[0] + rules[1]) / 2 + 4
    const box = (from: number, to: number): Parameters<Drawn['blackShare']>[0] => ({
      xMm: at(from),
      yMm: middle - 6,
      widthMm: at(to) - at(from),
      heightMm: 12,
    })
    const columns = (from: number, to: number): number[] => {
      const many = Array.from(
        { length: 40 },
        (_, step) => at(from) + ((at(to) - at(from)) * step) / 40,
      )
      return many.map(
        (xMm) =>
          sheet
            .down(xMm)
            .filter(({ middleMm, widthMm }) => Math.abs(middleMm - middle) < 7 && widthMm > 5)
            .length,
      )
    }
    expect(Math.max(...columns(26, 34))).toBe(0) // along alone
    expect(columns(60, 140).filter((count) => count > 0).length).toBeGreaterThan(5) // across alone
    const woven = sheet.blackShare(box(38, 41))
    expect(woven).toBeGreaterThan(1.3 * sheet.blackShare(box(27, 33)))
    expect(woven).toBeGreaterThan(1.3 * sheet.blackShare(box(70, 140)))
  })

  test('nothing stands where printers cannot print', () => {
    const edges = [
      { xMm: 0, yMm: 0, widthMm: 297, heightMm: 5 },
      { xMm: 0, yMm: 415, widthMm: 297, heightMm: 5 },
      { xMm: 0, yMm: 0, widthMm: 5, heightMm: 420 },
      { xMm: 292, yMm: 0, widthMm: 5, heightMm: 420 },
    ]
    for (const edge of edges) expect(sheet.blackShare(edge)).toBe(0)
  })
})

test('the tape of a demo shop is on a demo shop’s sheet and on no other', async () => {
  const tape = { xMm: 170, yMm: 8, widthMm: 120, heightMm: 18 }
  const share = async (demo: boolean): Promise<number> => {
    const pdf = await pdfOf(pageOf({ ...CHART, shop: { name: 'Room', demo } }))
    return (await drawn(pdf, { ...tape, pxPerMm: 4 })).blackShare(tape)
  }
  expect(await share(true)).toBeGreaterThan(0.03)
  expect(await share(false)).toBe(0)
})

test('where no dose does both there is no bar and no number', async () => {
  const none: WallRow = { ...row('Wash', 42, 30), verdict: 'no dose' }
  const bars = async (one: WallRow): Promise<number> => {
    const pdf = await pdfOf(pageOf({ ...CHART, rows: [one] }))
    const cloth = { xMm: 92, yMm: 100, widthMm: 190, heightMm: 40, pxPerMm: 8 }
    const found = await drawn(pdf, cloth)
    return found.across(118).filter(({ widthMm }) => widthMm > 1.3 && widthMm < 2).length
  }
  expect(await bars(row('Wash', 42, 47))).toBe(1)
  expect(await bars(none)).toBe(0)
})

test('twelve media fit on the smallest sheet, and one more is refused', async () => {
  const many = Array.from({ length: 12 }, (_, at) => row(`Medium with a long name ${at}`, 42, 125))
  const pdf = await pdfOf(pageOf({ ...CHART, rows: many, paper: 'letter' }))
  const sheet = await drawn(pdf, { xMm: 0, yMm: 0, widthMm: 215.9, heightMm: 279.4, pxPerMm: 6 })
  expect(sheet.blackShare({ xMm: 205.5, yMm: 40, widthMm: 10, heightMm: 239 })).toBe(0)
  expect(() => pageOf({ ...CHART, rows: [] })).toThrow('rows: expected a whole number from 1 to 12')
  expect(() => pageOf({ ...CHART, rows: [...many, many[0]] })).toThrow('got 13')
})
