import { expect, test } from 'vitest'
import { fieldWords } from './fieldWords.ts'

test.each([
  [['bands', 1, 'is', 'grade'], 'the grade of band 2'],
  [['pairs', 0, 'clockSec'], 'the clock of pair 1'],
  [['lastTime', 'doseLu'], 'the dose of last time'],
  [['glass', 'widthMm'], 'the width of the glass'],
  [['lastSolidStep'], 'the last solid step'],
  [['places', 4], 'place 5'],
  [['is'], 'how it came out'],
  [[], ''],
])('%j is said as it is called in the room: %s', (path, words) => {
  expect(fieldWords(path)).toBe(words)
})
