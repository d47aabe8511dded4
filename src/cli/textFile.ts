import { open } from 'node:fs/promises'
import { Failure } from '../core/failure.ts'
import { named, systemCode } from '../decode/named.ts'

/** A text file that somebody named: what it is within a sentence, and the option it came by. */
type Source = Readonly<{ path: string; what: string; field: string }>

/** Megabytes as sentences say them. */
const MEGA = 1_000_000

/**
 * Reads a text in UTF-8 from a file or a pipe, and never more of it than is taken.
 *
 * @throws Failure 'missing file', 'unreadable file', 'too large'
 */
export async function readTextFile(
  path: string,
  { what, field, mostBytes }: Readonly<{ what: string; field: string; mostBytes: number }>,
): Promise<string> {
  const source = { path, what, field }
  const bytes = await headOf(path, mostBytes).catch((cause: unknown) => {
    throw refused(source, cause)
  })
  if (bytes.length > mostBytes) {
    const most = mostBytes === MEGA ? 'a megabyte' : `${mostBytes / MEGA} megabytes`
    const message = `${named(path)} is longer than ${most}, so it is no ${what}; name the right file.`
    throw new Failure('too large', message, { field })
  }
  return textOf(bytes, source)
}

/** The head of the file, which is all of it unless it is longer than what is taken. */
async function headOf(path: string, mostBytes: number): Promise<Buffer> {
  const file = await open(path, 'r')
  try {
    const parts: Buffer[] = []
    let length = 0
    while (length <= mostBytes) {
      const { bytesRead, buffer } = await file.read(Buffer.alloc(65_536), 0, 65_536, null)
      if (bytesRead === 0) break
      parts.push(buffer.subarray(0, bytesRead))
      length += bytesRead
    }
    return Buffer.concat(parts)
  } finally {
    await file.close()
  }
}

function textOf(bytes: Buffer, { path, what, field }: Source): string {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes)
  } catch (cause) {
    const message = `${named(path)} is no text in UTF-8, so it is no ${what}; name the right file.`
    throw new Failure('unreadable file', message, { field, cause })
  }
}

function refused({ path, what, field }: Source, cause: unknown): Failure {
  const why = { field, cause }
  switch (systemCode(cause)) {
    case 'ENOENT':
    case 'ENOTDIR':
    case 'ENAMETOOLONG':
      return new Failure(
        'missing file',
        `There is no ${what} ${named(path)}; check its name and folder.`,
        why,
      )
    case 'EISDIR':
      return new Failure(
        'unreadable file',
        `${named(path)} is a folder; name the ${what} in it.`,
        why,
      )
    case 'EACCES':
    case 'EPERM':
      return new Failure(
        'unreadable file',
        `${named(path)} may not be read by you; change its permissions or copy it.`,
        why,
      )
    default: {
      const reason = systemCode(cause) || 'no reason given'
      const message = `The disk failed while reading ${named(path)} (${reason}); copy it to another disk.`
      return new Failure('world failed', message, why)
    }
  }
}
