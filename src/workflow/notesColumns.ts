import type { NoteRow } from './notesRecords.ts'

/** What a column of old notes can be of. */
export type NoteColumn =
  | 'date'
  | 'medium'
  | 'dose'
  | 'outcome'
  | 'unit'
  | 'fabric'
  | 'batch'
  | 'screen'
  | 'film'
  | 'lampHours'
  | 'note'

/** Where each column stands; or why the first line names none, as a sentence after `Line 1: `. */
export type NoteColumns =
  | Readonly<{
      at: ReadonlyMap<NoteColumn, number>
      width: number
      /** Columns that mean nothing to us, as they are written. */
      leftAside: readonly string[]
    }>
  | Readonly<{ wrong: string }>

export type CountsIn = 'light units' | 'seconds'

const NEEDED: readonly NoteColumn[] = ['date', 'medium', 'dose', 'outcome']

const WORDS: Readonly<Record<NoteColumn, readonly string[]>> = {
  date: ['date', 'day', 'when', 'exposed', 'exposed on'],
  medium: ['medium', 'media', 'drawn with', 'drawing', 'material'],
  dose: [
    'dose',
    'exposure',
    'light',
    'units',
    'light units',
    'light unit',
    'lu',
    'counts',
    'count',
  ],
  outcome: ['outcome', 'result', 'grade', 'how it came out', 'came out', 'how', 'stencil'],
  unit: ['unit', 'exposure unit', 'lamp', 'light source', 'machine'],
  fabric: ['fabric', 'mesh', 'cloth'],
  batch: ['bucket', 'batch', 'emulsion'],
  screen: ['screen', 'frame', 'screen number', 'frame number'],
  film: ['film', 'film name', 'positive', 'artwork', 'picture'],
  lampHours: ['lamp hours', 'hours', 'hours of the lamp', 'lamp h'],
  note: ['note', 'notes', 'remark', 'remarks', 'comment', 'comments'],
}
/** How a dose is counted, in a heading; the first two words are read only here. */
const SECONDS = ['seconds', 'second', 'secs', 'sec', 's']
const LIGHT_UNITS = ['light units', 'light unit', 'units', 'lu', 'counts']

/** Reads the first line: any order, capitals or none, and other words for the same thing. */
export function noteColumns(
  { cells }: NoteRow,
  { countsIn }: Readonly<{ countsIn: CountsIn }>,
): NoteColumns {
  const at = new Map<NoteColumn, number>()
  const leftAside: string[] = []
  const plain = cells.map(plainHeading)
  const hasMedium = plain.some(({ words }) => columnOf(words) === 'medium')
  for (const [place, { words, counted }] of plain.entries()) {
    const found = columnOf(words)
    const column = found === 'film' && !hasMedium ? 'medium' : found
    if (column === null) {
      if (words !== '') leftAside.push(cells[place] ?? '')
      continue
    }
    const other = at.get(column)
    if (other !== undefined) {
      return {
        wrong: `'${cells[other] ?? ''}' and '${cells[place] ?? ''}' are both of the ${nameOf(column)}: keep one of the two.`,
      }
    }
    if (column === 'dose' && counted !== null && counted !== countsIn) {
      return {
        wrong: `'${cells[place] ?? ''}' counts in ${counted}, and the exposure unit here in ${countsIn}: give the doses in those.`,
      }
    }
    at.set(column, place)
  }
  const missing = NEEDED.filter((column) => !at.has(column))
  if (missing.length === 0) return { at, width: cells.length, leftAside }
  if (missing.length > 2) {
    return {
      wrong: `the first line must name the columns: ${NEEDED.join(', ')}. It says '${cells.join(', ')}'.`,
    }
  }
  return { wrong: `there is no column of the ${missing.join(' or the ')}: name one so.` }
}

/** A column's name within a sentence. */
function nameOf(column: NoteColumn): string {
  return column === 'batch' ? 'bucket' : column === 'lampHours' ? 'lamp hours' : column
}

function columnOf(words: string): NoteColumn | null {
  for (const [column, known] of Object.entries(WORDS)) {
    if (known.includes(words)) return column as NoteColumn
  }
  return null
}

/** A heading without capitals and marks, and what it counts in, where it says so. */
function plainHeading(cell: string): Readonly<{ words: string; counted: CountsIn | null }> {
  const plain = cell
    .replace(/([a-z])([A-Z])/g, '$1 $2')
    .toLowerCase()
    .replace(/[_.:#?*]+/g, ' ')
    .replace(/\s+/g, ' ')
    .trim()
  const inside = /[([](.*)[)\]]$/.exec(plain) ?? / in (.*)$/.exec(plain)
  const words = (inside === null ? plain : plain.slice(0, inside.index)).trim()
  const measure = (inside?.[1] ?? words).trim()
  if (SECONDS.includes(measure)) {
    return { words: SECONDS.includes(words) ? 'dose' : words, counted: 'seconds' }
  }
  return { words, counted: LIGHT_UNITS.includes(measure) ? 'light units' : null }
}
