import { expect, test } from 'vitest'
import { STOCKS, separationQuality, withinTenPercent } from './quality.testing.ts'
import { TEST_PICTURES } from './testPictures.testing.ts'

// All twelve, on finer grids, are in tests/long/separation.long.ts.
test.each([2, 6, 8])(
  'oracle neugebauer: picture %d prints as near as the best mixture on a coarse grid, within 10 %',
  (number) => {
    const picture = TEST_PICTURES[number]
    if (picture === undefined) throw new RangeError('number: expected one of the pictures')
    const quality = separationQuality(picture, { inks: STOCKS.four, side: 7, steps: 6 })
    expect(withinTenPercent(quality), JSON.stringify(quality)).toBe(true)
  },
)
