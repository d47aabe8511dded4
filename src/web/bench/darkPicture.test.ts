import fc from 'fast-check'
import { expect, test } from 'vitest'
import { darkPicture, MOST_LIT } from './darkPicture.ts'

const WIDE = 40
const drawn = (isInk: (x: number, y: number) => boolean) =>
  darkPicture({
    widthPx: WIDE,
    heightPx: WIDE,
    ink: Uint8Array.from({ length: WIDE * WIDE }, (_, at) =>
      isInk(at % WIDE, Math.floor(at / WIDE)) ? 255 : 0,
    ),
  })

test('few marks are lit as they are', () => {
  const lit = drawn((x, y) => x === 5 && y > 3)
  expect(lit.reduce((sum, is) => sum + is, 0)).toBe(WIDE - 4)
})

test('a large solid is lit along its edge alone', () => {
  const lit = drawn((x, y) => x > 4 && x < 35 && y > 4 && y < 35)
  expect(lit.reduce((sum, is) => sum + is, 0)).toBe(4 * 30 - 4)
  expect([lit[20 * WIDE + 20], lit[20 * WIDE + 5]]).toEqual([0, 1])
})

test('invariant: whatever is drawn, no more than its share is lit, and only where ink is', () => {
  const any = fc.uint8Array({ minLength: 400, maxLength: 400 })
  fc.assert(
    fc.property(any, (ink) => {
      const lit = darkPicture({ widthPx: 20, heightPx: 20, ink })
      expect(lit.reduce((sum, is) => sum + is, 0)).toBeLessThanOrEqual(MOST_LIT * 400)
      expect(lit.every((is, at) => is === 0 || (ink[at] ?? 0) > 0)).toBe(true)
    }),
    { numRuns: 50 },
  )
})
