import { describe, expect, test } from 'vitest'
import { near } from '../../core/units/near.testing.ts'
import { openLetters } from '../../decode/glyphs.ts'
import { byPdfjs, checkedByQpdf } from '../../formats/pdfReaders.testing.ts'
import { drawn, pdfOf } from './drawn.testing.ts'
import { matPage } from './mat.ts'
import { MAT_SIZES, matLayout } from './matLayout.ts'

const letters = await openLetters()
const PDFS = await Promise.all(
  MAT_SIZES.map(async (size) => [size, await pdfOf(matPage({ size }, { letters }))] as const),
)
const SIDES_MM = { a4: [210, 297], letter: [215.9, 279.4], a3: [297, 420] } as const

describe.each(PDFS)('the mat of %s', (size, pdf) => {
  const layout = matLayout(size)

  test('oracle iso216, ansi-y14: its page is the sheet, in independent readers', async () => {
    if (size === 'a4') expect(await checkedByQpdf(pdf)).toBe(0)
    const { view, pages } = await byPdfjs(pdf)
    expect(pages).toBe(1)
    const [widthMm, heightMm] = SIDES_MM[size]
    near((view[2] * 25.4) / 72, widthMm, { within: 0.01, because: 'the contract of PDFs' })
    near((view[3] * 25.4) / 72, heightMm, { within: 0.01, because: 'the contract of PDFs' })
  })

  test('its bar is 100 mm long, and its targets stand where the layout says, to 0.05 mm', async () => {
    const within = { within: 0.05, because: 'what the mat is held to' }
    const { scale, targetMm } = layout
    const bar = { xMm: scale.xMm - 2, yMm: scale.yMm - 1, widthMm: 104, heightMm: 8 }
    const ticks = (await drawn(pdf, { ...bar, pxPerMm: 40 })).across(scale.yMm + 1)
    const [first, last] = [ticks[0], ticks.at(-1)]
    near((last?.middleMm ?? 0) - (first?.middleMm ?? 0), 100, within)
    for (const { xMm, yMm } of [layout.targets[0], layout.targets.at(-1)].flatMap(
      (one) => one ?? [],
    )) {
      const about = { xMm: xMm - 1, yMm: yMm - 1, widthMm: targetMm + 2, heightMm: targetMm + 2 }
      const square = await drawn(pdf, { ...about, pxPerMm: 40 })
      const [across] = square.across(yMm + 1) // within the black border
      const [down] = square.down(xMm + 1)
      near(across?.widthMm ?? 0, targetMm, within)
      near(across?.middleMm ?? 0, xMm + targetMm / 2, within)
      near(down?.middleMm ?? 0, yMm + targetMm / 2, within)
    }
  })
})

test('no two mats share a target, so a photo says which mat it shows', () => {
  const numbers = MAT_SIZES.flatMap((size) => matLayout(size).targets.map(({ number }) => number))
  expect(new Set(numbers).size).toBe(numbers.length)
  expect(Math.max(...numbers)).toBeLessThan(40)
})

test('targets keep clear of window, slot and words, and nothing leaves the sheet', () => {
  for (const size of MAT_SIZES) {
    const { targets, targetMm, window, slot, widthMm, footMm } = matLayout(size)
    for (const { xMm, yMm } of targets) {
      const apart = (box: typeof window): boolean =>
        xMm + targetMm + 2.5 <= box.xMm ||
        xMm - 2.5 >= box.xMm + box.widthMm ||
        yMm + targetMm + 2.5 <= box.yMm ||
        yMm - 2.5 >= box.yMm + box.heightMm
      expect(apart(window) && apart(slot), `${size} ${xMm} ${yMm}`).toBe(true)
      expect(yMm + targetMm).toBeLessThan(footMm - 7)
      expect(xMm + targetMm).toBeLessThan(widthMm - 5)
    }
  }
})

test('a demo shop is named as one, and the lamp is warned of', async () => {
  const shop = { name: 'Quillfield Print Room', demo: true }
  const plain = await pdfOf(matPage({}, { letters }))
  const named = await pdfOf(matPage({ shop }, { letters }))
  expect(named.length).toBeGreaterThan(plain.length)
  expect(Buffer.compare(await pdfOf(matPage({}, { letters })), Buffer.from(plain))).toBe(0)
})
