import { describe, expect, test } from 'vitest'
import { clockWritten, lengthEntry, lengthWritten, numberWritten, valueOf } from './written.ts'

describe('numbers as people type them', () => {
  test.each([
    ['60', 60],
    [' 4,5 ', 4.5],
    ['0', null],
    ['6o', null],
    ['1e3', null],
    ['-3', null],
    ['100001', null],
  ])('a dose of “%s” is %s', (text, value) => {
    expect(valueOf(numberWritten(text, { low: 0.1, high: 100_000 }))).toBe(value)
  })

  test('nothing written is not wrong', () => {
    expect(numberWritten('  ', { low: 1, high: 2 }).kind).toBe('nothing')
    expect(numberWritten('x', { low: 1, high: 2 }).kind).toBe('wrong')
  })

  test('a step is whole', () => {
    const steps = { low: 0, high: 21, whole: true }
    expect(numberWritten('6.5', steps).kind).toBe('wrong')
    expect(numberWritten('22', steps).kind).toBe('wrong')
    expect(valueOf(numberWritten('21', steps))).toBe(21)
  })
})

describe('the clock', () => {
  test.each([
    ['90', 90],
    ['1:30', 90],
    ['0:07,5', 7.5],
    ['1:02:03', 3723],
    ['1:75', null],
    ['2:00:01', null],
    ['half', null],
  ])('“%s” is %s seconds', (text, sec) => {
    expect(valueOf(clockWritten(text))).toBe(sec)
  })
})

describe('lengths', () => {
  const bounds = { low: 50, high: 10_000 }

  test.each([
    ['420', 'metric', 420],
    ['420 mm', 'imperial', 420],
    ['16 in', 'metric', 406.4],
    ['16', 'imperial', 406.4],
    ['16"', 'metric', 406.4],
    ['1 in', 'metric', null],
    ['42o', 'metric', null],
  ] as const)('“%s” on a %s page is %s mm', (text, units, mm) => {
    const read = valueOf(lengthWritten(text, bounds, units))
    if (mm === null) expect(read).toBeNull()
    else expect(read).toBeCloseTo(mm, 9)
  })

  test('what is put into a field reads back as the same length', () => {
    for (const mm of [120, 600, 1060]) {
      expect(valueOf(lengthWritten(lengthEntry(mm, 'metric'), bounds, 'metric'))).toBe(mm)
      const inches = valueOf(lengthWritten(lengthEntry(mm, 'imperial'), bounds, 'imperial'))
      expect(Math.abs((inches ?? 0) - mm)).toBeLessThanOrEqual(1.27) // tenths of an inch
    }
  })
})
