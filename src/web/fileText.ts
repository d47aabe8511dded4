/**
 * A table's file as text, as programs for tables write it: UTF-8, UTF-16 with its mark, or where it
 * is neither the letters of Western Europe.
 *
 * @returns null for what is no text
 */
export function textOf(bytes: Uint8Array): string | null {
  const [first, second] = bytes
  const marked = first === 0xff && second === 0xfe ? 'utf-16le' : null
  const text =
    read(bytes, marked ?? 'utf-8') ?? (marked === null ? read(bytes, 'windows-1252') : null)
  return text === null || text.includes('\u0000') ? null : text
}

/** The same of a file somebody chose; null also for one that cannot be opened. */
export async function wordsIn(file: Blob): Promise<string | null> {
  const bytes = await file.arrayBuffer().catch(() => null)
  return bytes === null ? null : textOf(new Uint8Array(bytes))
}

/** Null where the bytes are not written so. */
function read(bytes: Uint8Array, as: string): string | null {
  try {
    return new TextDecoder(as, { fatal: true }).decode(bytes)
  } catch {
    return null
  }
}
