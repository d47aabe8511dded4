import { expect, test } from 'vitest'
import { heavyInk } from './heavyInk.ts'

const size = { widthPx: 60, heightPx: 48 }

/** A plate that covers a rectangle. */
function plate(tone: number, left: number, right: number): Uint8Array {
  return Uint8Array.from({ length: size.widthPx * size.heightPx }, (_, at) => {
    const x = at % size.widthPx
    return x >= left && x < right ? tone : 0
  })
}

test('where three inks lie on each other there is more than two solids, and the rest is not said', () => {
  const plates = [plate(255, 0, 60), plate(204, 12, 48), plate(153, 24, 48)]
  const { most, above } = heavyInk(plates, { ...size, limit: 2 })
  expect(most).toBeCloseTo(2.4, 10)
  expect(above?.box).toEqual({ left: 24, top: 0, right: 48, bottom: 48 })
  // a pixel at the rim of a patch is not counted: 22 of 24 across, 46 of 48 down
  expect(above?.share).toBeCloseTo((22 * 46) / (60 * 48), 10)
})

test('at the limit itself nothing is too much', () => {
  const plates = [plate(255, 0, 60), plate(255, 12, 48)]
  expect(heavyInk(plates, { ...size, limit: 2 })).toEqual({ most: 2, above: null })
})
