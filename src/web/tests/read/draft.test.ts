import { describe, expect, test } from 'vitest'
import { newReading } from '../../../api/tests.ts'
import { EMPTY, NO_GRADE, readingOf } from './draft.ts'
import { READ_WORDS } from './readWords.ts'
import { afterTap, stepIs } from './wedgeMarks.ts'

/** What goes out, after the contract has looked at it. */
function told(...args: Parameters<typeof readingOf>): unknown {
  const read = readingOf(...args)
  return read.kind === 'reading' ? newReading.parse(read.reading) : read.wrong
}

describe('a wedge', () => {
  const WEDGE = { ...EMPTY, unit: 'u', screen: 's14', dose: '60', lastSolid: '6', firstClear: '9' }

  test('goes out in the shape of the contract, and only what was told', () => {
    expect(told(WEDGE, 'wedge')).toEqual({
      kind: 'wedge',
      unit: 'u',
      screen: 's14',
      doseLu: 60,
      lastSolidStep: 6,
      firstClearStep: 9,
    })
  })

  test('a screen says its fabric and bucket itself; without one they are told', () => {
    const setUp = { fabric: 'f', batch: 'b' }
    expect(told({ ...WEDGE, ...setUp }, 'wedge')).not.toHaveProperty('fabric')
    expect(told({ ...WEDGE, ...setUp, screen: '' }, 'wedge')).toMatchObject(setUp)
  })

  test('not one solid step is step 0, which is something else than none told', () => {
    expect(told({ ...WEDGE, lastSolid: '0', firstClear: '' }, 'wedge')).toMatchObject({
      lastSolidStep: 0,
    })
    expect(told({ ...WEDGE, lastSolid: '' }, 'wedge')).toEqual({
      lastSolidStep: 'Say the last solid step.',
    })
  })

  test('every field says its own fault, in what was written', () => {
    expect(told({ ...WEDGE, dose: '6o', lastSolid: '30', firstClear: 'x' }, 'wedge')).toEqual({
      doseLu: 'The dose must be a number, like 60. You wrote “6o”.',
      lastSolidStep: 'A step is a whole number up to 21. You wrote “30”.',
      firstClearStep: 'A step is a whole number up to 21. You wrote “x”.',
    })
    expect(told({ ...WEDGE, firstClear: '6' }, 'wedge')).toEqual({
      firstClearStep: READ_WORDS.wrong.order,
    })
  })

  test('another wedge is told with what is usual where a blank was left open', () => {
    expect(told({ ...WEDGE, steps: '31', increment: '0,1' }, 'wedge')).toMatchObject({
      wedge: { steps: 31, firstDensity: 0.05, increment: 0.1 },
    })
    expect(
      told({ ...WEDGE, steps: '31', lastSolid: '30', firstClear: '31' }, 'wedge'),
    ).toMatchObject({ lastSolidStep: 30 })
    expect(told({ ...WEDGE, increment: '9' }, 'wedge')).toHaveProperty('increment')
  })
})

describe('a finished screen', () => {
  const SCREEN = { ...EMPTY, medium: 'm', dose: '42' }

  test('is told by one word, or by two ticks', () => {
    expect(told({ ...SCREEN, is: { ...NO_GRADE, grade: 'soft' } }, 'outcome')).toEqual({
      kind: 'outcome',
      medium: 'm',
      doseLu: 42,
      is: { grade: 'soft' },
    })
    const is = { grade: 'good', ground: 'soft', marks: 'open' } as const
    expect(told({ ...SCREEN, by: 'ticks', is }, 'outcome')).toMatchObject({
      is: { ground: 'soft', marks: 'open' },
    })
  })

  test('one tick of two is not enough, and no medium is none', () => {
    const is = { ...NO_GRADE, ground: 'sound' } as const
    expect(told({ ...SCREEN, by: 'ticks', medium: '', is }, 'outcome')).toEqual({
      is: READ_WORDS.wrong.grade,
      medium: READ_WORDS.wrong.medium,
    })
  })
})

describe('a strip', () => {
  const good = { ...NO_GRADE, grade: 'good' } as const

  test('bands left empty are not told', () => {
    const bands = [
      { ...good, dose: '36' },
      { ...NO_GRADE, dose: '' },
      { ...good, dose: '42' },
    ]
    expect(told({ ...EMPTY, medium: 'm', bands }, 'strip')).toMatchObject({
      bands: [
        { doseLu: 36, is: { grade: 'good' } },
        { doseLu: 42, is: { grade: 'good' } },
      ],
    })
  })

  test('a band half told says which one and what is missing', () => {
    const bands = [
      { ...good, dose: '' },
      { ...NO_GRADE, dose: '42' },
    ]
    expect(told({ ...EMPTY, medium: 'm', bands }, 'strip')).toEqual({
      'bands.0.doseLu': READ_WORDS.wrong.dose(''),
      'bands.1.is': READ_WORDS.wrong.grade,
    })
    expect(told({ ...EMPTY, medium: 'm' }, 'strip')).toEqual({ bands: READ_WORDS.wrong.bands })
  })
})

test('taps tell the last solid step first, then the first clear one, then begin again', () => {
  const nothing = { steps: 21, solid: null, clear: null }
  const once = { steps: 21, ...afterTap(6, nothing) }
  const twice = { steps: 21, ...afterTap(9, once) }
  expect(twice).toMatchObject({ solid: 6, clear: 9 })
  expect([5, 6, 7, 8, 9, 10].map((step) => stepIs(step, twice))).toEqual([
    'solid',
    'solid',
    'part',
    'part',
    'clear',
    'clear',
  ])
  expect(afterTap(7, twice)).toEqual({ solid: 7, clear: null })
  expect(afterTap(4, once)).toEqual({ solid: 4, clear: null })
})
