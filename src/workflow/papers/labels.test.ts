import { expect, test } from 'vitest'
import { openLetters } from '../../decode/glyphs.ts'
import type { Letters } from '../../formats/letters.ts'
import { labelPages } from './labels.ts'

const LARGE = '7'

/** What stands on a label, row by row, and how far down the last row reaches. */
async function rowsOf(small: readonly string[]) {
  const real = await openLetters()
  const rows: string[] = []
  let lowestMm = 0
  const letters: Letters = {
    ...real,
    path: (text, how) => {
      if (how.yMm < 48) {
        rows.push(text)
        lowestMm = Math.max(lowestMm, how.yMm)
      }
      return real.path(text, how)
    },
  }
  const square = { side: 1, isDark: () => true }
  labelPages(
    {
      labels: [{ large: LARGE, small, square }],
      about: 'Coated screens',
      shop: { name: 'Invented shop', demo: true },
      date: '2026-11-29',
    },
    { letters },
  )
  return { rows: rows.filter((text) => text !== LARGE), lowestMm }
}

// what is held here anybody can see: until when a coat is good stands whole on its slip
test('a long name leaves room for the days, and shows that it goes on', async () => {
  const days = ['Dry by 15:06', 'Good to 27 Dec', 'Coated 29 Nov']
  const usual = await rowsOf(['Wen Li', ...days])
  expect(usual.rows).toEqual(['Wen Li', ...days])
  const long = await rowsOf(['Maximiliana Bartholomea Okafor-Villanueva', ...days])
  expect(long.rows.slice(-3)).toEqual(days)
  expect(long.rows).toHaveLength(5)
  expect(long.rows[1]).toMatch(/…$/)
  // a label is 36 mm high and begins 12 mm from the edge
  expect(long.lowestMm).toBeLessThan(48)
})
