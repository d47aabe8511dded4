import fc from 'fast-check'
import { expect, test } from 'vitest'
import { tableRows } from './tableRows.ts'

const cells = (text: string): readonly (readonly string[])[] =>
  tableRows(text).map((row) => row.cells)

test.each([
  ['commas', 'date,dose\n2026-03-02,38\n'],
  ['semicolons, no last line end', 'date;dose\n2026-03-02;38'],
  ['tabs and Windows line ends', 'date\tdose\r\n2026-03-02\t38\r\n'],
  ['old line ends', 'date,dose\r2026-03-02,38\r'],
  ['a mark of the encoding', '\ufeffdate,dose\n2026-03-02,38'],
  ['blanks about the cells', ' date , dose \n 2026-03-02 ,  38 '],
  ['the separator in a line of its own', 'sep=;\ndate;dose\n2026-03-02;38'],
  ['empty lines', '\n\ndate,dose\n\n,\n2026-03-02,38\n\n'],
] as const)('%s', (_, text) => {
  expect(cells(text)).toEqual([
    ['date', 'dose'],
    ['2026-03-02', '38'],
  ])
})

test('oracle rfc4180: separators, line ends and doubled quotes within quotes belong to the cell', () => {
  // The rules 5 to 7 of section 2, one after another.
  expect(cells('"aaa","bbb","ccc"\nzzz,yyy,xxx')).toEqual([
    ['aaa', 'bbb', 'ccc'],
    ['zzz', 'yyy', 'xxx'],
  ])
  expect(cells('"aaa","b\r\nbb","ccc"\r\nzzz,yyy,xxx')).toEqual([
    ['aaa', 'b\r\nbb', 'ccc'],
    ['zzz', 'yyy', 'xxx'],
  ])
  expect(cells('"aaa","b""bb","ccc"')).toEqual([['aaa', 'b"bb', 'ccc']])
})

test('a decimal comma stays where semicolons part the cells', () => {
  expect(cells('dose;note\n38,5;"a; b"')).toEqual([
    ['dose', 'note'],
    ['38,5', 'a; b'],
  ])
})

test('a row says on which line of the file it begins', () => {
  const rows = tableRows('sep=,\ndate,note\n\n1,"two\nlines"\n2,x\n')
  expect(rows.map(({ line }) => line)).toEqual([2, 4, 6])
})

test('a quotation mark for inches is a mark like any other; one that never ends names its line', () => {
  expect(cells('a,b\n1,a 5" strip, "so"')[1]).toEqual(['1', 'a 5" strip', 'so'])
  const lost = 'Line 3: a cell begins with a quotation mark and does not end with one'
  expect(() => tableRows('a,b\n1,2\n3,"four\n5,6\n')).toThrow(lost)
  expect(() => tableRows('a,b\n1,2\n3,"four" and five\n5,6\n')).toThrow(lost)
})

test('nothing gives no rows, too many are refused', () => {
  expect(tableRows('')).toEqual([])
  expect(tableRows('\ufeff\n\n')).toEqual([])
  expect(tableRows('a\n'.repeat(20_000))).toHaveLength(20_000)
  expect(() => tableRows('a\n'.repeat(20_001))).toThrow('more than 20000 lines')
})

test('invariant: what is written by the rules is read as it was', () => {
  const cell = fc.string({ unit: fc.constantFrom('a', '7', ' ', ',', ';', '"', '\n', 'é') })
  const trimmed = cell.map((text) => text.trim())
  const table = fc.array(fc.array(trimmed, { minLength: 3, maxLength: 3 }), { minLength: 1 })
  fc.assert(
    fc.property(table, fc.constantFrom(',', ';', '\t'), (rows, separator) => {
      const quoted = (text: string): string => `"${text.replaceAll('"', '""')}"`
      const head = ['date', 'dose', 'note']
      const text = [head, ...rows].map((row) => row.map(quoted).join(separator)).join('\r\n')
      expect(cells(text)).toEqual([head, ...rows.filter((row) => row.some((each) => each !== ''))])
    }),
    { seed: 77, numRuns: 300 },
  )
})
