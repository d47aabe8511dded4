import { PATHS } from '../../api/paths.ts'
import { type NotesRead, notesRead } from '../../api/tests.ts'
import { Failure } from '../../core/failure.ts'
import type { Option, Place } from '../arguments.ts'
import type { Command } from '../command.ts'
import { hung } from '../helpText.ts'
import { oneOf, path, word } from '../reads.ts'
import { SHOP, withShop } from '../shopOption.ts'
import { readTextFile } from '../textFile.ts'

/** What the shop takes in one question. */
const MOST_BYTES = 900_000
const MOST_SHOWN = 20

const NOTES: Place<string> = {
  name: 'NOTES',
  about: 'a table as text: its first line names the columns date, medium, dose, outcome',
  needed: true,
  reads: path({ what: 'table of notes', shown: 'NOTES.csv' }),
}
const DRY_RUN: Option<true> = {
  name: 'dry-run',
  about: 'say what would be taken down, and take nothing down',
  needed: false,
  reads: null,
}
const SLASH_DATES: Option<'day first' | 'month first'> = {
  name: 'slash-dates',
  about: 'what 3/4/2026 means where the table does not tell: "day first" or "month first"',
  needed: false,
  reads: oneOf(['day first', 'month first'], { what: 'order of dates', shown: 'ORDER' }),
}
const UNIT = thing('unit', 'the exposure unit, where a line names none')
const FABRIC = thing('fabric', 'the fabric, where a line names none')

export const importNotes: Command = {
  name: 'import',
  summary: "takes a shop's old notes of screens: date, medium, dose, outcome",
  places: [NOTES],
  options: [DRY_RUN, SLASH_DATES, UNIT, FABRIC, SHOP],
  notes: [
    'A line that can be read in two ways, or that the shop knows already, is not taken: each is named with what to do. Lines may also tell unit, fabric, bucket, screen, film, lamp hours and a note; what they leave out is as is usual in the shop.',
    'A whole shop comes back from its backup: restore.',
  ],
  example: {
    line: 'import notes.csv --dry-run --shop shop',
    prints: '2 of 2 lines can be taken down. Nothing was: leave out --dry-run.',
  },
  run: async (given, io) => {
    const text = await readTextFile(given.needs(NOTES), {
      what: 'table of notes',
      field: 'NOTES',
      mostBytes: MOST_BYTES,
    })
    const dryRun = given.has(DRY_RUN)
    const told = {
      text,
      dryRun,
      slashDates: given.of(SLASH_DATES),
      unit: given.of(UNIT),
      fabric: given.of(FABRIC),
    }
    const record = await withShop(given.of(SHOP), io, async (ask) =>
      notesRead.parse(await (await ask(PATHS.notes, told)).json()),
    )
    refuseNoTable(record)
    return { record, text: said(record) }
  },
}

function thing(name: string, about: string): Option<string> {
  return { name, about, needed: false, reads: word({ what: name, shown: 'NAME' }) }
}

/** Line 1 names the columns: where it does not, nothing below it can be read. */
function refuseNoTable({ problems: [first] }: NotesRead): void {
  if (first?.line !== 1) return
  throw new Failure('wrong input', first.message, { field: 'NOTES' })
}

function said({ dryRun, lines, taken, problems, slashDatesUnclear }: NotesRead): string {
  const all = `${taken} of ${lines} lines`
  const more = problems.length - MOST_SHOWN
  return [
    dryRun
      ? `${all} can be taken down. Nothing was: leave out --dry-run.`
      : `${all} were taken down.`,
    ...problems.slice(0, MOST_SHOWN).flatMap(({ message }) => hung('- ', message)),
    ...(more > 0 ? [`- and ${more} more; --json lists all.`] : []),
    ...(slashDatesUnclear ? ['Say what 3/4/2026 means: --slash-dates "day first".'] : []),
  ].join('\n')
}
