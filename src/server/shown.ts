/** What the first page tells of a command; whoever starts the server knows them. */
export type ShownCommand = Readonly<{
  name: string
  summary: string
  /** The whole line to type, and what it prints. */
  line: string
  prints: string
}>
