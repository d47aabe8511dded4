import { CsvError, type Options, parse } from 'csv-parse/sync'
import { Failure } from '../core/failure.ts'

/** One row of a table as it was typed: where it begins, and its cells. */
export type TableRow = Readonly<{ line: number; cells: readonly string[] }>

const MOST_ROWS = 20_000
const SEPARATORS = ['\t', ';', ','] as const

/**
 * The rows of a table that was kept as text: commas, semicolons or tabs between the cells, quotes
 * round a cell that has one of them in it, any kind of line ends.
 *
 * Which separator it is, the first line says: the one it has most of. Empty rows are left out.
 *
 * @returns rows in the file's order; the first line of the file is line 1
 * @throws Failure 'unreadable file' for a cell that a quote begins and none ends, 'too large'
 * @source rfc4180
 */
export function tableRows(text: string): readonly TableRow[] {
  const plain = text.replace(/^\ufeff/, '')
  // Some spreadsheets name the separator in a line of its own.
  const said = /^sep=([,;\t])(\r\n|\n|\r)/.exec(plain)
  const body = said === null ? plain : plain.slice(said[0].length)
  const before = said === null ? 0 : 1
  const rows: TableRow[] = []
  let line = before + 1
  const options: Options = {
    delimiter: said?.[1] ?? separatorOf(body),
    record_delimiter: ['\r\n', '\n', '\r'],
    relax_column_count: true,
    relax_quotes: true,
    to: MOST_ROWS + 1,
    trim: true,
    on_record: (cells, { lines }) => {
      rows.push({ line, cells })
      line = before + lines + 1
      return null
    },
  }
  try {
    parse(body, options)
  } catch (cause) {
    if (!(cause instanceof CsvError)) throw cause
    const message = `Line ${line}: a cell begins with a quotation mark and does not end with one; put it there, or leave out the first.`
    throw new Failure('unreadable file', message, { cause })
  }
  if (rows.length > MOST_ROWS) {
    throw new Failure('too large', `The table has more than ${MOST_ROWS} lines: split it in two.`)
  }
  return rows.filter(({ cells }) => cells.some((cell) => cell !== ''))
}

/** What parts the cells of the first row that has any; a comma where nothing does. */
function separatorOf(text: string): string {
  const first = text.split(/\r\n|\n|\r/).find((line) => line.trim() !== '') ?? ''
  const outside = first.replace(/"[^"]*"/g, '')
  const counts = SEPARATORS.map((separator) => outside.split(separator).length)
  const most = Math.max(...counts)
  return most === 1 ? ',' : (SEPARATORS[counts.indexOf(most)] ?? ',')
}
