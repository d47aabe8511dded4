import { expect, test } from 'vitest'
import { tableRows } from '../decode/tableRows.ts'
import { readNotes } from './notes.ts'
import { type NoteEntry, notesTable } from './notesTable.ts'

const PENCIL = { id: 'pencil', name: 'soft pencil, 6B' }
const UNIT = { id: 'lamp', name: 'our lamp' }
const ENTRY: NoteEntry = {
  on: '2026-03-02',
  medium: PENCIL.name,
  doseCounts: 38.25,
  grading: { grade: 'good' },
  unit: UNIT.name,
  fabric: null,
  batch: null,
  screen: 'No. 7',
  lampHours: 512.5,
  note: 'he said "fine",\nthen left',
}

test('oracle rfc4180: a table of doses is read again by an independent reader, cell by cell', () => {
  const soft: NoteEntry = { ...ENTRY, grading: { ground: 'soft', marks: 'open' }, note: null }
  const rows = tableRows(notesTable([ENTRY, soft]))
  expect(rows.map(({ cells }) => cells.length)).toEqual([10, 10, 10])
  const { taken, problems } = readNotes(rows, {
    today: 30_000,
    known: { media: [PENCIL], units: [UNIT], fabrics: [], batches: [] },
  })
  expect(problems).toEqual([])
  expect(taken).toMatchObject([
    {
      on: '2026-03-02',
      medium: PENCIL,
      doseCounts: 38.25,
      grading: ENTRY.grading,
      lampHours: 512.5,
    },
    { grading: soft.grading, screen: 'No. 7' },
  ])
})

test('a spreadsheet that opens the table finds no formula in it', () => {
  const text = notesTable([
    { ...ENTRY, note: '=1+1' },
    { ...ENTRY, note: '-2 steps' },
  ])
  const notes = tableRows(text).map(({ cells }) => cells.at(-1))
  expect(notes).toEqual(['note', "'=1+1", "'-2 steps"])
})
