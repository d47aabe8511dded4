import { expect, test } from 'vitest'
import { firstFacts } from '../../api/shop.ts'
import { doseWritten, factsOf, isWrongDose, NO_ENTRIES } from './entries.ts'

test('blanks left open are not told', () => {
  expect(factsOf(NO_ENTRIES)).toEqual({})
})

test('all that is written goes out in the shape of the contract', () => {
  const facts = factsOf({
    shopName: '  Our room ',
    countsIn: 'light units',
    fabric: '90-48',
    colour: 'dyed',
    coats: 'once on each side',
    emulsion: 'ready-mixed',
    lastTime: { medium: 'cut masking film', dose: '70', outcome: 'good' },
    another: { medium: 'soft pencil', dose: '45,5', outcome: 'filling' },
  })
  expect(firstFacts.parse(facts)).toEqual(facts)
  expect(facts).toMatchObject({ shopName: 'Our room', another: { doseLu: 45.5 } })
})

test('half a memory is none', () => {
  const lastTime = { medium: 'soft pencil', dose: '4o', outcome: 'good' } as const
  expect(factsOf({ ...NO_ENTRIES, lastTime })).toEqual({})
})

test.each([
  ['70', 70],
  [' 4,5 ', 4.5],
  ['0.1', 0.1],
  ['0', null],
  ['-3', null],
  ['1e3', null],
  ['42o', null],
  ['', null],
])('“%s” is %s', (text, doseLu) => {
  expect(doseWritten(text)).toBe(doseLu)
})

test('an empty blank is open, not wrong', () => {
  expect(isWrongDose('')).toBe(false)
  expect(isWrongDose('42o')).toBe(true)
})
