import type { Given, Option, Place } from './arguments.ts'

/** What a command may touch of the world besides the files it is given. */
export type Io = Readonly<{
  stdout: Stream
  stderr: Stream
  env: Readonly<Record<string, string | undefined>>
}>

export type Stream = Readonly<{
  write: (text: string) => unknown
  /** True where lines can be drawn over: a terminal. */
  isTTY?: boolean
  columns?: number
}>

/** What --json prints, a list only where a list was handed in, and the same in words for people. */
export type Answer = Readonly<{ record: JsonRecord | readonly JsonRecord[]; text: string }>

type JsonRecord = Readonly<Record<string, unknown>>

/** A command line that works as it stands, and what it prints; a test runs it. */
export type Example = Readonly<{ line: string; prints: string }>

/** A command is an entry in the table: help, the first page and the tests follow from it. */
export type Command = Readonly<{
  name: string
  /** One line for the list of commands: what it answers. */
  summary: string
  /** What it takes without a name, in order. */
  places: readonly Place[]
  options: readonly Option[]
  /** What help says beneath the options: limits, cautions. */
  notes?: readonly string[]
  example: Example
  /** null when everything was said on the way, as by a server. */
  run: (given: Given, io: Io) => Promise<Answer | null>
}>
