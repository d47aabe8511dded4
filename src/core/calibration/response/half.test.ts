import { expect, test } from 'vitest'
import { near } from '../../units/near.testing.ts'
import { halfOf } from './half.ts'

test('oracle fieller1954: at both ends of the range the line is 1.645 of its own sd from 0', () => {
  const line = { a: -3.1, b: 2.2, aa: 0.31, ab: -0.17, bb: 0.13 }
  const { x, range } = halfOf(line)
  if (range === null) throw new Error('the line rises')
  expect(range.low).toBeLessThan(x)
  expect(range.high).toBeGreaterThan(x)
  for (const end of [range.low, range.high]) {
    const value = line.a + line.b * end
    const sd = Math.sqrt(line.aa + 2 * end * line.ab + end ** 2 * line.bb)
    near(Math.abs(value) / sd, 1.6448536269514722, { within: 1e-9, because: 'its definition' })
  }
})

test('a line that falls, or may as well fall, has no range', () => {
  const line = { a: -3.1, b: 2.2, aa: 0.31, ab: -0.17, bb: 0.13 }
  expect(halfOf({ ...line, b: -2.2 }).range).toBeNull()
  // 1.645 sd of the slope are just all of it.
  expect(halfOf({ ...line, bb: (2.2 / 1.64) ** 2 }).range).toBeNull()
  expect(halfOf({ ...line, bb: (2.2 / 1.65) ** 2 }).range).not.toBeNull()
})
