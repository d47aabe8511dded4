import { plainName } from '../units/plainName.ts'

/** Somebody of a class, as a table has them. */
export type Pupil = Readonly<{ line: number; name: string; className: string | null }>

export type ClassList = Readonly<{
  pupils: readonly Pupil[]
  /** What is wrong, line by line, in sentences. */
  problems: readonly Readonly<{ line: number; says: string }>[]
}>

type Row = Readonly<{ line: number; cells: readonly string[] }>

const NAME = /^((full|student|pupil)['’]?s? ?)?names?$|^(student|pupil)s?$/i
const FIRST = /^(first|given|preferred)( ?names?)?$|^forenames?$/i
const LAST = /^(last|family)( ?names?)?$|^surnames?$/i
const CLASS = /^(class|group|course|form)( ?(name|code))?$/i
const LONGEST = 80
/** Letters, and no signs that nobody can see: a file that is no table is full of those. */
const IS_NAME = /^(?=.*\p{L})\P{Cc}+$/u
const IS_TEXT = /^\P{Cc}*$/u

/**
 * A class list as it comes out of a school's own tables: a column `name`, or two for first and last
 * name, and perhaps `class`; without a first line of such words the first column that holds words
 * holds the names.
 *
 * @param className of all in the list, where no column says so
 */
export function readClassList(
  rows: readonly Row[],
  { className }: Readonly<{ className: string | null }>,
): ClassList {
  const columns = columnsOf(rows[0]?.cells ?? [])
  const body = columns === null ? rows : rows.slice(1)
  const places = columns ?? { name: firstOfWords(rows), first: -1, last: -1, group: -1 }
  const pupils: Pupil[] = []
  const problems: { line: number; says: string }[] = []
  const seen = new Map<string, number>()
  for (const { line, cells } of body) {
    const at = (column: number): string => (cells[column] ?? '').replace(/\s+/g, ' ').trim()
    const name =
      places.name >= 0 ? at(places.name) : `${at(places.first)} ${at(places.last)}`.trim()
    const group = at(places.group)
    const before = seen.get(plainName(name))
    if (name === '') problems.push({ line, says: 'No name stands in this line.' })
    else if (!IS_NAME.test(name) || !IS_TEXT.test(group)) {
      const says = 'What stands in this line is no name: copy the table as text.'
      problems.push({ line, says })
    } else if (name.length > LONGEST) {
      problems.push({ line, says: `The name is longer than ${LONGEST} letters.` })
    } else if (group.length > LONGEST) {
      problems.push({ line, says: `The class is longer than ${LONGEST} letters.` })
    } else if (before !== undefined) {
      const says = `${name} stands in line ${before} already; two people of one name want a letter more.`
      problems.push({ line, says })
    } else {
      seen.set(plainName(name), line)
      pupils.push({ line, name, className: group || className })
    }
  }
  return { pupils, problems }
}

type Columns = Readonly<{ name: number; first: number; last: number; group: number }>

/** Where what stands, by the first line; null when that is a line like the others. */
function columnsOf(cells: readonly string[]): Columns | null {
  const find = (words: RegExp): number => cells.findIndex((cell) => words.test(cell.trim()))
  const found = { name: find(NAME), first: find(FIRST), last: find(LAST), group: find(CLASS) }
  return found.name >= 0 || (found.first >= 0 && found.last >= 0) ? found : null
}

/** The first column that holds words in most lines: before it numbers may stand, or days. */
function firstOfWords(rows: readonly Row[]): number {
  const most = Math.max(0, ...rows.map(({ cells }) => cells.length))
  const isOfWords = (column: number): boolean =>
    2 * rows.filter(({ cells }) => /\p{L}/u.test(cells[column] ?? '')).length > rows.length
  return Math.max(0, Array.from({ length: most }, (_, at) => at).findIndex(isOfWords))
}
