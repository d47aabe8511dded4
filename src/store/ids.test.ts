import fc from 'fast-check'
import { expect, test } from 'vitest'
import { isSortableId, sortableId } from './ids.ts'

const zeros = (count: number): Uint8Array => new Uint8Array(count)

test('the time stands first, in ten signs of base 32, then chance in sixteen', () => {
  // divided by 32 ten times with Python's divmod
  expect(sortableId(new Date(1469918176385), zeros)).toBe(`01aryz6s41${'0'.repeat(16)}`)
  expect(sortableId(new Date(0), (count) => new Uint8Array(count).fill(255))).toBe(
    `${'0'.repeat(10)}${'z'.repeat(16)}`,
  )
})

test('a time that is none is refused by name', () => {
  expect(() => sortableId(new Date(Number.NaN))).toThrow('timeMs: expected')
  expect(() => sortableId(new Date(-1))).toThrow('got -1')
})

test('invariant: sorted as text, names stand in the order of their times', () => {
  const time = fc.integer({ min: 0, max: 2 ** 43 })
  fc.assert(
    fc.property(time, time, (one, other) => {
      fc.pre(one < other)
      expect(sortableId(new Date(one)) < sortableId(new Date(other))).toBe(true)
      expect(isSortableId(sortableId(new Date(one)))).toBe(true)
    }),
    { seed: 31 },
  )
})

test('a thousand of one moment are all different', () => {
  const at = new Date(Date.UTC(2026, 8, 14))
  expect(new Set(Array.from({ length: 1000 }, () => sortableId(at))).size).toBe(1000)
})

test('what is no name is told apart', () => {
  for (const text of [
    '',
    'x',
    '0'.repeat(25),
    `${'0'.repeat(25)}U`,
    `${'0'.repeat(25)}i`,
    '../../etc/passwd',
  ]) {
    expect(isSortableId(text)).toBe(false)
  }
})
