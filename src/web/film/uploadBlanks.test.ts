import { expect, test } from 'vitest'
import { OPEN_BLANKS, uploadQuestionOf, wrongBlank } from './uploadBlanks.ts'

test('open blanks ask for nothing', () => {
  expect(uploadQuestionOf(OPEN_BLANKS)).toEqual({})
})

test('what is written is asked for, with a point or a comma', () => {
  expect(uploadQuestionOf({ resolutionDpi: ' 720 ', solidDensity: '2,8', as: 'coverage' })).toEqual(
    {
      resolutionDpi: 720,
      solidDensity: 2.8,
      as: 'coverage',
    },
  )
})

test('a wrong number gets its sentence and nothing is sent', () => {
  expect(wrongBlank('resolutionDpi', '72o')).toBe(
    'Pixels per inch must be a number from 50 to 6000. You wrote “72o”.',
  )
  expect(wrongBlank('solidDensity', '35')).toContain('from 0.3 to 6')
  expect(uploadQuestionOf({ ...OPEN_BLANKS, resolutionDpi: '20' })).toBeNull()
  expect(wrongBlank('solidDensity', '')).toBeNull()
})
