import fc from 'fast-check'
import { expect, test } from 'vitest'
import { markWidths } from './markWidths.ts'

test('half of the axis 3 pixels wide and half 9: five shares say 3, five say 9', () => {
  const widths = markWidths()
  for (let at = 0; at < 100; at += 1) widths.add({ widthPx: at % 2 === 0 ? 3 : 9 }, 1)
  expect(widths.shares(10)).toEqual([3, 3, 3, 3, 3, 9, 9, 9, 9, 9])
})

test('a film without a mark has no widths', () => {
  expect(markWidths().shares(10)).toEqual([])
})

test('invariant: shares rise, lie among the widths that were told, and their middle is the median', () => {
  const width = fc.integer({ min: 1, max: 800 }).map((eighths) => eighths / 8)
  fc.assert(
    fc.property(fc.array(width, { minLength: 1, maxLength: 60 }), (told) => {
      const widths = markWidths()
      for (const widthPx of told) widths.add({ widthPx }, 1)
      const shares = widths.shares(9)
      const sorted = told.toSorted((a, b) => a - b)
      expect(shares).toEqual(shares.toSorted((a, b) => a - b))
      expect(told).toEqual(expect.arrayContaining([...shares]))
      expect(shares[4]).toBe(sorted[Math.ceil(told.length / 2) - 1])
    }),
  )
})
