import type { Grading } from '../core/calibration/belief/grades.ts'
import { gradingWords } from './readingWords.ts'

/** A dose and what came of it, as a line of notes tells it; what is not known is left out. */
export type NoteEntry = Readonly<{
  /** As 2026-11-28. */
  on: string
  medium: string | null
  /** As it stood on the unit's counter. */
  doseCounts: number
  grading: Grading
  unit: string
  fabric: string | null
  batch: string | null
  screen: string | null
  lampHours: number | null
  note: string | null
}>

const HEADINGS = 'date,medium,dose,outcome,unit,fabric,bucket,screen,lamp hours,note'
/** What a spreadsheet would reckon with, were it not for the mark before it. */
const RECKONED = /^[=+\-@\t\r]/

/**
 * Doses and what came of them as a table with commas, in the form that `readNotes` reads.
 *
 * @returns CSV: a line of headings, then one line an entry, in their order; lines end with CR LF
 * @source rfc4180
 */
export function notesTable(entries: readonly NoteEntry[]): string {
  const lines = entries.map((entry) =>
    [
      entry.on,
      cell(entry.medium),
      String(Number(entry.doseCounts.toPrecision(6))),
      cell(gradingWords(entry.grading)),
      cell(entry.unit),
      cell(entry.fabric),
      cell(entry.batch),
      cell(entry.screen),
      entry.lampHours ?? '',
      cell(entry.note),
    ].join(),
  )
  return [HEADINGS, ...lines, ''].join('\r\n')
}

function cell(text: string | null): string {
  if (text === null) return ''
  const plain = RECKONED.test(text) ? `'${text}` : text
  return /[",\r\n]/.test(plain) ? `"${plain.replaceAll('"', '""')}"` : plain
}
