import { expect, test } from 'vitest'
import { paperToBuy } from './paperToBuy.ts'
import { inkCost, printCost } from './printCost.ts'
import { squeegeeFor } from './squeegee.ts'

const A3 = { widthMm: 297, heightMm: 420 }
const A2 = { widthMm: 420, heightMm: 594 }

test('oracle iso216: an A2 sheet is cut into two of A3, turned', () => {
  expect(paperToBuy(A3, { from: A2, sheets: 24, onShelf: 5 })).toEqual({
    fromOne: 2,
    isTurned: true,
    wanted: 12,
    toBuy: 7,
  })
  expect(paperToBuy(A2, { from: A3, sheets: 1, onShelf: 0 })).toBeNull()
})

test('prints lie one way alone, even where both ways would give one more', () => {
  // three upright over two turned make five; one way alone makes four at most
  const print = { widthMm: 160, heightMm: 170 }
  const bought = { widthMm: 500, heightMm: 335 }
  expect(paperToBuy(print, { from: bought, sheets: 12, onShelf: 0 })).toMatchObject({ fromOne: 4 })
  expect(paperToBuy(A3, { from: null, sheets: 24, onShelf: 30 })).toMatchObject({ toBuy: 0 })
})

test('what a print costs by hand, and what nobody priced is named', () => {
  const cost = printCost(
    [
      { what: 'paper', cost: 24 * 1.5 },
      {
        what: 'ink',
        cost: inkCost([
          { grams: 210, pricePerKg: 30 },
          { grams: 40, pricePerKg: 45 },
        ]),
      },
      { what: 'screens', cost: null },
    ],
    { prints: 20 },
  )
  // 36 + 6.30 + 1.80 = 44.10
  expect(cost.total).toBeCloseTo(44.1, 9)
  expect(cost.perPrint).toBeCloseTo(2.205, 9)
  expect(cost.missing).toEqual(['screens'])
  expect(inkCost([{ grams: 3, pricePerKg: null }])).toBeNull()
  expect(() => printCost([], { prints: 0 })).toThrow('prints')
})

test('a blade is wider than its image, and one too wide for the frame says by how much', () => {
  expect(squeegeeFor({ imageWidthMm: 210, insideWidthMm: 500, threadsPerCm: 77 })).toEqual({
    widthMm: 260,
    hardnessShore: { low: 65, high: 70 },
    angleDeg: 75,
    shortMm: 0,
  })
  expect(squeegeeFor({ imageWidthMm: 420, insideWidthMm: 500, threadsPerCm: 120 }).shortMm).toBe(50)
})
