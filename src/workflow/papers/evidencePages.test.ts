import { expect, test } from 'vitest'
import { openLetters } from '../../decode/glyphs.ts'
import { evidencePages } from './evidencePages.ts'

const paper = async (sections: number): Promise<number> => {
  const lines = ['One line.', 'One more.', 'And a third.']
  const pages = evidencePages(
    {
      name: 'Handover',
      about: 'What whoever comes next must know.',
      sections: Array.from({ length: sections }, (_, at) => ({ title: `Part ${at}`, lines })),
      shop: { name: 'Invented shop', demo: true },
      date: '2026-11-29',
    },
    { letters: await openLetters() },
  )
  return pages.length
}

test('headings stand closer only where that saves a sheet', async () => {
  // with 13 mm over a heading 7 parts fill a sheet, with 10 mm 8
  expect([await paper(7), await paper(8), await paper(9)]).toEqual([1, 1, 2])
})
