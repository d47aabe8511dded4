import fc from 'fast-check'
import { expect, test } from 'vitest'
import { median } from './median.ts'

test('invariant: the middle value is the one that stands in the middle of the sorted list', () => {
  const lists = fc.array(fc.double({ noNaN: true, min: -3, max: 3 }), { maxLength: 60 })
  fc.assert(
    fc.property(lists, (list) => {
      const sorted = list.toSorted((a, b) => a - b)
      expect(median(Float64Array.from(list)) + 0).toBe((sorted[list.length >> 1] ?? Number.NaN) + 0)
    }),
  )
})
