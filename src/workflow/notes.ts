import { isoOfDay } from './calendarDay.ts'
import { readDoseCell, readHoursCell, readNameCell } from './notesCells.ts'
import { type CountsIn, type NoteColumn, noteColumns } from './notesColumns.ts'
import { readDate, type SlashDates, slashDatesOf, slashDatesUnclear } from './notesDates.ts'
import { withoutDoubles } from './notesDoubles.ts'
import { readOutcome } from './notesOutcome.ts'
import type {
  KnownToShop,
  Named,
  NoteLine,
  NoteProblem,
  NoteRow,
  NotesRead,
} from './notesRecords.ts'
import { gradingWords } from './readingWords.ts'

const LONGEST_NAME = 80
const LONGEST_NOTE = 2000
const NOTHING = { slashDatesUnclear: false, leftAside: [] } as const

type Asked = Readonly<{
  /** Days since 1970-01-01; what comes later did not happen yet. */
  today: number
  known: KnownToShop
  /** The answer to what 3/4/2026 means, where the file does not tell by itself. */
  slashDates?: SlashDates | undefined
  /** What the unit counts in; light units unless told. */
  countsIn?: CountsIn | undefined
}>

/**
 * Old notes of finished screens: date, medium, dose, outcome, and whatever else a line tells.
 *
 * Nothing is guessed in silence: what can be read in two ways is a problem of that line, with the
 * question in it. A line that says what another line or the shop's memory says already is left out.
 *
 * @param rows as `tableRows` gives them, the first with the names of the columns
 */
export function readNotes(rows: readonly NoteRow[], asked: Asked): NotesRead {
  const { today, known, countsIn = 'light units' } = asked
  const [first, ...told] = rows
  if (first === undefined) {
    const message =
      'Line 1: the table is empty; its first line names the columns: date, medium, dose, outcome.'
    return { lines: 0, taken: [], problems: [{ line: 1, message }], ...NOTHING }
  }
  const columns = noteColumns(first, { countsIn })
  if ('wrong' in columns) {
    const problem = problemOf(first.line, columns.wrong)
    return { lines: told.length, taken: [], problems: [problem], ...NOTHING }
  }
  const { at, width, leftAside } = columns
  const cellOf = ({ cells }: NoteRow, column: NoteColumn): string =>
    cells[at.get(column) ?? Number.POSITIVE_INFINITY] ?? ''
  const dates = told.map((row) => cellOf(row, 'date'))
  const slashes = asked.slashDates ?? slashDatesOf(dates, { today })
  const read = told.map((row) => {
    if (row.cells.slice(width).some((cell) => cell !== '')) {
      const wrong = `it has ${row.cells.length} cells and the first line names ${width}: a comma within a cell wants quotation marks round the cell.`
      return problemOf(row.line, wrong)
    }
    const cell = (column: NoteColumn): string => cellOf(row, column)
    return noteLine(row.line, { cell, today, known, slashes, countsIn })
  })
  const lines = read.filter((each) => 'says' in each)
  const { taken, doubles } = withoutDoubles(lines, known.readings ?? [])
  const problems = [...read.filter((each) => 'message' in each), ...doubles]
  problems.sort((a, b) => a.line - b.line)
  return {
    lines: told.length,
    taken,
    problems,
    slashDatesUnclear: slashDatesUnclear(dates, { today }),
    leftAside,
  }
}

type Cells = Readonly<{
  cell: (column: NoteColumn) => string
  today: number
  known: KnownToShop
  slashes: SlashDates | 'unclear'
  countsIn: CountsIn
}>

function noteLine(
  line: number,
  { cell, today, known, slashes, countsIn }: Cells,
): NoteLine | NoteProblem {
  const date = readDate(cell('date'), { today, slashes })
  if ('wrong' in date) return problemOf(line, date.wrong)
  const medium = readNameCell(cell('medium'), { known: known.media, what: 'medium' })
  if (medium === null) return problemOf(line, 'the medium is missing.')
  if ('wrong' in medium) return problemOf(line, medium.wrong)
  const dose = readDoseCell(cell('dose'), countsIn)
  if ('wrong' in dose) return problemOf(line, dose.wrong)
  const outcome = readOutcome(cell('outcome'))
  if ('wrong' in outcome) return problemOf(line, outcome.wrong)
  const hours = readHoursCell(cell('lampHours'))
  if (hours !== null && 'wrong' in hours) return problemOf(line, hours.wrong)
  const things = {
    unit: readNameCell(cell('unit'), { known: known.units, what: 'exposure unit' }),
    fabric: readNameCell(cell('fabric'), { known: known.fabrics, what: 'fabric' }),
    batch: readNameCell(cell('batch'), { known: known.batches, what: 'bucket' }),
  }
  for (const thing of Object.values(things)) {
    if (thing !== null && 'wrong' in thing) return problemOf(line, thing.wrong)
  }
  const texts = { screen: cell('screen'), film: cell('film'), note: cell('note') }
  for (const [what, text] of Object.entries(texts)) {
    const most = what === 'note' ? LONGEST_NOTE : LONGEST_NAME
    if (text.length > most) return problemOf(line, `the ${what} is longer than ${most} letters.`)
  }
  const named = (thing: (typeof things)['unit']): Named | undefined =>
    thing !== null && 'named' in thing ? thing.named : undefined
  const [unit, fabric, batch] = [named(things.unit), named(things.fabric), named(things.batch)]
  const on = isoOfDay(date.day)
  const about = [unit?.name, fabric?.name, batch?.name, texts.screen && `screen ${texts.screen}`]
  const where = about.filter((part) => part !== undefined && part !== '').join(', ')
  const said = `${on}: ${medium.named.name} at ${dose.value}, ${gradingWords(outcome.grading)}`
  return {
    line,
    day: date.day,
    on,
    medium: medium.named,
    doseCounts: dose.value,
    grading: outcome.grading,
    unit,
    fabric,
    batch,
    screen: textOf(texts.screen),
    film: textOf(texts.film),
    note: textOf(texts.note),
    lampHours: hours?.value,
    says: where === '' ? said : `${said} (${where})`,
  }
}

/** undefined for an empty cell. */
function textOf(cell: string): string | undefined {
  return cell === '' ? undefined : cell
}

function problemOf(line: number, sentence: string): NoteProblem {
  return { line, message: `Line ${line}: ${sentence}` }
}
