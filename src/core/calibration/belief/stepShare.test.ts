import { test } from 'vitest'
import { near } from '../../units/near.testing.ts'
import { logShareBetween } from './normal.ts'
import { stepShareLog } from './stepShare.ts'

test.each([2, 1, Number.POSITIVE_INFINITY])(
  'a table of width %d says what the integral says',
  (width) => {
    const quick = stepShareLog(width)
    for (let from = -45.03; from < 45; from += 0.0917) {
      near(quick(from), logShareBetween(from, from + width), {
        within: 1e-8,
        because: 'the fourth derivative is at most 6, places are 1/64 apart: 0.023 · 6 / 64⁴',
      })
    }
  },
)
