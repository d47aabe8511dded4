/** A path in a sentence: in quotes, without characters that move a terminal's cursor. */
export function named(path: string): string {
  return `"${path.replace(/\p{C}/gu, '?')}"`
}

/** The system's own word for why a call failed, such as ENOENT; empty where it has none. */
export function systemCode(error: unknown): string {
  const code = error instanceof Error && 'code' in error ? error.code : ''
  return typeof code === 'string' ? code : ''
}
