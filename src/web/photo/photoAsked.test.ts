import { expect, test } from 'vitest'
import { firstCorners, firstEnds } from './corners.ts'
import { blanksOf, OPEN_BLANKS, photoAskOf, wrongLength, wrongNumber } from './photoAsked.ts'

const PHOTO = { widthPx: 4000, heightPx: 3000 }
const HAND = { corners: firstCorners(PHOTO), ends: firstEnds(PHOTO), units: 'metric' } as const

test('nothing written asks for nothing but what hands moved', () => {
  expect(photoAskOf(OPEN_BLANKS, { corners: null, ends: null, units: 'metric' })).toEqual({})
  expect(photoAskOf(OPEN_BLANKS, HAND)).toEqual({ corners: firstCorners(PHOTO) })
})

test('a size counts when both sides are there, a wedge when it is shown by hand', () => {
  expect(photoAskOf({ ...OPEN_BLANKS, width: '297' }, HAND)).not.toHaveProperty('sizeMm')
  const shown = {
    ...OPEN_BLANKS,
    width: '297',
    height: '210 mm',
    wedge: 'here',
    first: '0,07',
  } as const
  expect(photoAskOf(shown, HAND)).toMatchObject({
    sizeMm: { widthMm: 297, heightMm: 210 },
    wedge: firstEnds(PHOTO),
    wedgeDensities: { firstDensity: 0.07, increment: 0.15, steps: 21 },
  })
})

test('a slip gets its sentence and nothing is asked', () => {
  expect(wrongLength('width', '42o', 'metric')).toBe(
    'Width of the sheet must be a length like 420 mm or 16 in. You wrote “42o”.',
  )
  expect(photoAskOf({ ...OPEN_BLANKS, width: '42o' }, HAND)).toBeNull()
  expect(wrongNumber('steps', '20.5')).toContain('from 2 to 61')
  expect(photoAskOf({ ...OPEN_BLANKS, wedge: 'here', increment: '3' }, HAND)).toBeNull()
})

test('what was asked before stands in the blanks again', () => {
  const blanks = {
    ...OPEN_BLANKS,
    width: '297',
    height: '210',
    wedge: 'here',
    steps: '31',
  } as const
  const asked = photoAskOf(blanks, HAND)
  expect({ ...OPEN_BLANKS, ...blanksOf(asked, 'metric') }).toEqual(blanks)
  expect({ ...OPEN_BLANKS, ...blanksOf(null, 'metric') }).toEqual(OPEN_BLANKS)
})
