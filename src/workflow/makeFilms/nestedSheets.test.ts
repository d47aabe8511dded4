import { expect, test } from 'vitest'
import { nestedSheets } from './nestedSheets.ts'
import type { PageLayout } from './pageLayout.ts'

const layout = { widthMm: 90, heightMm: 120, widthPx: 900, heightPx: 1200 } as PageLayout
const film = () => ({
  widthPx: 900,
  heightPx: 1200,
  pixelUm: 100,
  bands: (async function* () {})(),
})
const films = Array.from({ length: 7 }, () => film)

test('small films lie side by side with room for a knife, as many as go on a sheet', () => {
  const sheet = { widthMm: 297, heightMm: 260, overlapMm: 0, nest: true }
  const pages = nestedSheets(films, { layout, sheet })
  expect(pages.map(({ items }) => items.length)).toEqual([6, 1])
  const places = pages[0]?.items.map((item) => (item.kind === 'bitmap' ? [item.xMm, item.yMm] : []))
  expect(places).toEqual([
    [0, 0],
    [98, 0],
    [196, 0],
    [0, 128],
    [98, 128],
    [196, 128],
  ])
})

test('a film larger than the sheet is refused', () => {
  const sheet = { widthMm: 80, heightMm: 260, overlapMm: 0, nest: true }
  expect(() => nestedSheets(films, { layout, sheet })).toThrow('leave sheet.nest out')
})

test('a sheet lies crosswise where more films lie on it', () => {
  // upright 2 by 1 of them, crosswise 3 by 1
  const sheet = { widthMm: 200, heightMm: 290, overlapMm: 0, nest: true }
  const tall = { ...layout, heightMm: 190 }
  const [page] = nestedSheets(films, { layout: tall, sheet })
  expect([page?.widthMm, page?.heightMm, page?.items.length]).toEqual([290, 200, 3])
})
