import type { Grading } from '../core/calibration/belief/grades.ts'

/** A row of a table: where it begins in the file, and its cells. */
export type NoteRow = Readonly<{ line: number; cells: readonly string[] }>

/** A thing of the shop. */
export type Named = Readonly<{ id: string; name: string }>

/** A screen that the shop's memory holds already; things by their ids. */
export type KnownReading = Readonly<{
  /** Days since 1970-01-01. */
  day: number
  medium: string
  doseCounts: number
  grading: Grading
  unit?: string | undefined
  fabric?: string | undefined
  batch?: string | undefined
  screen?: string | undefined
  film?: string | undefined
}>

/** What the cells of old notes may name, and what they may tell a second time. */
export type KnownToShop = Readonly<{
  media: readonly Named[]
  units: readonly Named[]
  fabrics: readonly Named[]
  batches: readonly Named[]
  readings?: readonly KnownReading[] | undefined
}>

/** One line of old notes, understood. */
export type NoteLine = Readonly<{
  line: number
  /** Days since 1970-01-01, and the same as an ISO date. */
  day: number
  on: string
  medium: Named
  /** As it stood on the unit's counter. */
  doseCounts: number
  grading: Grading
  unit?: Named | undefined
  fabric?: Named | undefined
  batch?: Named | undefined
  screen?: string | undefined
  film?: string | undefined
  lampHours?: number | undefined
  note?: string | undefined
  /** For people to look over: `2026-03-02: soft pencil at 38, good`. */
  says: string
}>

/** What cannot be taken of one line, in a sentence that begins with its number. */
export type NoteProblem = Readonly<{ line: number; message: string }>

/** Old notes, read. Each line is either taken or a problem. */
export type NotesRead = Readonly<{
  /** Lines that tell something: the first, which names the columns, is not counted. */
  lines: number
  taken: readonly NoteLine[]
  problems: readonly NoteProblem[]
  /** Some date like 3/4/2026 may be two days: somebody must say which number is the month. */
  slashDatesUnclear: boolean
  /** Columns that mean nothing to us, as they are written. */
  leftAside: readonly string[]
}>
