import fc from 'fast-check'
import { expect, test } from 'vitest'
import { valueOfJson } from './jsonText.ts'

const read = (text: string): unknown => valueOfJson(text, { named: 'The setup' })

test.each([
  ['', 'The setup is empty'],
  [' \n\t', 'The setup is empty'],
  ['{"a": 1,}', 'is not JSON at line 1, column 9: a key in double quotes is wanted'],
  ['{\n  "a": 1\n  "b": 2 }', 'line 3, column 3: a comma or } is wanted'],
  ['{ "a": NaN }', 'line 1, column 8: a value is wanted'],
  ['{ "a": .5 }', 'line 1, column 8: a value is wanted'],
  ['{ "a": 012 }', 'line 1, column 9: a comma or } is wanted'],
  ["{ 'a': 1 }", 'line 1, column 3: a key in double quotes is wanted'],
  ['{ "a" 1 }', 'line 1, column 7: a colon is wanted after the key'],
  ['{ "a": [1, 2 }', 'line 1, column 14: a comma or ] is wanted'],
  ['{ "a": 1', 'line 1, column 9: a comma or } is wanted'],
  ['{} {}', 'line 1, column 4: nothing may follow the value'],
  ['{ "a": "tab\there" }', 'line 1, column 8: a value is wanted'],
  ['['.repeat(100_000), 'nested more than 64 deep'],
])('%j says where it is no JSON', (text, message) => {
  expect(() => read(text)).toThrow(message)
})

test('a key that stands twice is refused where it stands the second time', () => {
  expect(() => read('{ "a": { "b": 1,\n "\\u0062": 2 } }')).toThrow(
    'The setup has the key "\\u0062" a second time at line 2, column 2: give it once.',
  )
  expect(read('{ "a": { "a": 1 }, "b": { "a": 2 } }')).toEqual({ a: { a: 1 }, b: { a: 2 } })
})

test('a byte order mark is passed over', () => {
  expect(read('\ufeff{"a": 3}')).toEqual({ a: 3 })
})

test('invariant: what JSON.stringify writes is read back, with any spacing', () => {
  fc.assert(
    fc.property(fc.json(), fc.constantFrom(0, 1, '\t'), (text, space) => {
      const value: unknown = JSON.parse(text)
      expect(read(JSON.stringify(value, null, space))).toEqual(value)
    }),
    { seed: 20261 },
  )
})

test('invariant: a text JSON.parse refuses is refused, wherever it was damaged', () => {
  const damaged = fc.tuple(
    fc.json({ maxDepth: 3 }),
    fc.nat(),
    fc.constantFrom('', ',', '"', '}', ':', '1'),
  )
  fc.assert(
    fc.property(damaged, ([text, at, put]) => {
      const cut = at % (text.length + 1)
      const broken = text.slice(0, cut) + put + text.slice(cut + 1)
      const isJson = (() => {
        try {
          JSON.parse(broken)
          return true
        } catch {
          return false
        }
      })()
      if (!isJson) expect(() => read(broken)).toThrow('The setup ')
    }),
    { seed: 20262, numRuns: 500 },
  )
})
