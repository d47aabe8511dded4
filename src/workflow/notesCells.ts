import { LAMP_HOURS } from '../core/calibration/belief/evidence.ts'
import { plainName } from '../core/units/plainName.ts'
import { isIn, type Range } from '../core/units/range.ts'
import { nearest } from './nearest.ts'
import type { CountsIn } from './notesColumns.ts'
import type { Named } from './notesRecords.ts'

/** What a counter can have been set to. */
const DOSE_COUNTS: Range = { name: 'doseCounts', low: 0.1, high: 100_000, unit: '' }
const DECIMAL = /^\d+([.,]\d+)?$/
const THOUSANDS = /^\d{1,3},\d{3}$/
const RANGE = /\d\s*(-|–|—|to|\/|…|\.\.+)\s*\d/
const UNIT_WORDS = /\s*(light units?|units?|lu|counts?|seconds?|secs?)$/
const NAMES_SHOWN = 8

/** A number, or what is wrong, as a sentence goes on after `Line 7: `. */
export type NumberRead = Readonly<{ value: number } | { wrong: string }>

/** The dose on the counter: 42, 42 lu, 42.5, 42,5. */
export function readDoseCell(cell: string, countsIn: CountsIn): NumberRead {
  if (cell === '') return { wrong: 'the dose is missing.' }
  const text = cell.toLowerCase().replace(UNIT_WORDS, '').trim()
  if (RANGE.test(text)) {
    return { wrong: `the dose must be one number. '${cell}' is two: write the one that was set.` }
  }
  const value = numberOf(text)
  if (typeof value === 'string') return { wrong: value }
  if (value === null || value <= 0) {
    return {
      wrong: `the dose must be a number of ${countsIn} above 0, like 42. It says '${cell}'.`,
    }
  }
  if (isIn(value, DOSE_COUNTS)) return { value }
  const { low, high } = DOSE_COUNTS
  return { wrong: `the dose must lie between ${low} and ${high}. It says '${cell}'.` }
}

/** Hours on the lamp's own counter; null for an empty cell. */
export function readHoursCell(cell: string): NumberRead | null {
  if (cell === '') return null
  const value = numberOf(
    cell
      .toLowerCase()
      .replace(/\s*(h|hrs?|hours?)$/, '')
      .trim(),
  )
  if (typeof value === 'string') return { wrong: value }
  if (value !== null && isIn(value, LAMP_HOURS)) return { value }
  return { wrong: `the lamp hours must be a number, like 512. It says '${cell}'.` }
}

/** null for no number; a sentence for one that may be two. */
function numberOf(text: string): number | string | null {
  if (THOUSANDS.test(text)) {
    const [plain, point] = [text.replace(',', ''), text.replace(',', '.')]
    return `'${text}' may be ${plain} or ${Number(point)}: write it without the comma.`
  }
  return DECIMAL.test(text) ? Number(text.replace(',', '.')) : null
}

/** One of the shop's things, or what is wrong. */
export type NameRead = Readonly<{ named: Named } | { wrong: string }>

/**
 * A thing of the shop by its id, its name, or a part of its name that fits it alone; null for an
 * empty cell.
 */
export function readNameCell(
  cell: string,
  { known, what }: Readonly<{ known: readonly Named[]; what: string }>,
): NameRead | null {
  if (cell === '') return null
  const plain = plainName(cell)
  const own = known.find(({ id, name }) => id === cell || plainName(name) === plain)
  if (own !== undefined) return { named: own }
  const words = wordsOf(cell)
  const like = known.filter(({ name }) => {
    const theirs = wordsOf(name)
    return isPart(words, theirs) || isPart(theirs, words)
  })
  const [first, second] = like
  if (first !== undefined && second === undefined) return { named: first }
  if (first !== undefined) {
    const names = like.map(({ name }) => name)
    return { wrong: `'${cell}' may be ${names.join(' or ')}: write which ${what} it was.` }
  }
  return { wrong: `the shop has no ${what} '${cell}'.${adviceFor(cell, { known, what })}` }
}

function adviceFor(
  cell: string,
  { known, what }: Readonly<{ known: readonly Named[]; what: string }>,
): string {
  const names = known.map(({ name }) => name)
  const guess = nearest(cell, names)
  if (guess !== undefined) return ` Did you mean ${guess}?`
  if (what !== 'medium') return ` Add it to the shop first, or leave the cell empty.`
  return ` It has ${names.slice(0, NAMES_SHOWN).join(', ')}${names.length > NAMES_SHOWN ? ' and more' : ''}.`
}

function wordsOf(name: string): readonly string[] {
  return plainName(name)
    .split(/[\s-]+/)
    .filter((word) => word !== '')
}

function isPart(words: readonly string[], of: readonly string[]): boolean {
  return words.length > 0 && words.every((word) => of.includes(word))
}
