import { TESTS_TITLES } from '../../words.ts'

/** What reading old notes in says, in English. */
export const NOTES_WORDS = {
  title: TESTS_TITLES.notes,
  intro:
    'What the shop wrote down before counts as well. One line for each exposure: date, medium, dose, outcome; the first line names the columns.',
  example:
    'date,medium,dose,outcome\n2026-03-14,soft pencil,42,good\n2026-03-21,cut masking film,70,filling',
  text: 'The notes',
  file: 'Choose a file',
  where: 'They were made on',
  outcomes: 'Outcomes: washed off, soft, good, filling, filled.',
  look: 'Look through them',
  looking: 'Looking through them …',
  found: (taken: number, lines: number): string =>
    taken === lines
      ? `All ${lines} lines can be taken.`
      : `${taken} of ${lines} lines can be taken.`,
  problems: 'What cannot be taken',
  line: (number: number): string => `Line ${number}:`,
  preview: 'How they will be taken down',
  more: (count: number): string => `and ${count} more`,
  take: (count: number): string =>
    count === 1 ? 'Take this reading' : `Take these ${count} readings`,
  taking: 'Taking them down …',
  taken: (count: number): string =>
    count === 1 ? 'One reading is taken down.' : `${count} readings are taken down.`,
  missing: 'Paste your notes first, or choose a file.',
  tooLong: 'These notes are too long for one go: 900 000 letters at most. Take them in parts.',
  unreadable: 'This file cannot be read as text. Save it as CSV and choose it again.',
  slashes: 'A date like 3/4/2026 is',
  slashDates: { 'day first': 'the 3rd of April', 'month first': 'the 4th of March' },
  slashesOpen: 'which day?',
  slashesWhy: 'These notes have dates that may be two days: say which number is the month.',
  slashesFirst: 'Say that first: then it shows which lines can be taken.',
  none: 'Not one line can be taken as it is. Mend them here and look again.',
} as const
