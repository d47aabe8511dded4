import { expect, test } from 'vitest'
import { type Corners, firstCorners, firstEnds, goRound, keyMove, movedWithin } from './corners.ts'

const PHOTO = { widthPx: 4000, heightPx: 3000 }

test('corners begin inside of the photo and go round it clockwise', () => {
  const corners = firstCorners(PHOTO)
  expect(goRound(corners)).toBe(true)
  for (const { x, y } of [...corners, ...firstEnds(PHOTO)]) {
    expect([x > 0 && x < 4000, y > 0 && y < 3000]).toEqual([true, true])
  }
})

test('crossed or turned corners do not go round', () => {
  const [a, b, c, d] = firstCorners(PHOTO)
  expect(goRound([b, a, c, d])).toBe(false)
  expect(goRound([d, c, b, a])).toBe(false)
  expect(goRound([b, c, d, a])).toBe(true) // a sheet that lies turned by a quarter
  const dented: Corners = [a, b, { x: a.x + 10, y: a.y + 10 }, d]
  expect(goRound(dented)).toBe(false)
})

test('a corner is kept within the photo', () => {
  expect(movedWithin({ x: 10, y: 2990 }, { x: -20, y: 20 }, PHOTO)).toEqual({ x: 0, y: 3000 })
  expect(movedWithin({ x: 10, y: 20 }, { x: 3, y: -4 }, PHOTO)).toEqual({ x: 13, y: 16 })
})

test('arrows move by a pixel of what is shown, with Shift by ten; other keys move nothing', () => {
  expect(keyMove({ key: 'ArrowUp', shiftKey: false }, PHOTO)).toEqual({ x: 0, y: -2 })
  expect(keyMove({ key: 'ArrowRight', shiftKey: true }, PHOTO)).toEqual({ x: 20, y: 0 })
  expect(keyMove({ key: 'Tab', shiftKey: false }, PHOTO)).toBeNull()
})
