import { open } from 'node:fs/promises'
import { Failure } from '../core/failure.ts'
import { named, systemCode } from '../decode/named.ts'
import { SETUP_BYTES_AT_MOST, setupFromJson } from '../workflow/readSetup.ts'
import type { Setup } from '../workflow/setup.ts'

const FIELD = { field: 'setup' }

/** What makes a setup of a file's text. */
export type ReadSetup = (text: string) => Setup

/**
 * Reads a setup from a file or a pipe, and never more of it than a setup can be.
 *
 * @throws Failure 'missing file', 'unreadable file', 'too large', or what is wrong in it
 */
export async function readSetupFile(path: string, read: ReadSetup = setupFromJson): Promise<Setup> {
  const bytes = await headOf(path).catch((cause: unknown) => {
    throw refused(path, cause)
  })
  if (bytes.length > SETUP_BYTES_AT_MOST) {
    const message = `${named(path)} is longer than a megabyte, so it is no setup; name the JSON file.`
    throw new Failure('too large', message, FIELD)
  }
  return read(textOf(path, bytes))
}

async function headOf(path: string): Promise<Buffer> {
  const file = await open(path, 'r')
  try {
    const parts: Buffer[] = []
    let length = 0
    while (length <= SETUP_BYTES_AT_MOST) {
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

function textOf(path: string, bytes: Buffer): string {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes)
  } catch (cause) {
    const message = `${named(path)} is no text in UTF-8, so it is no setup; name the JSON file.`
    throw new Failure('unreadable file', message, { ...FIELD, cause })
  }
}

function refused(path: string, cause: unknown): Failure {
  const why = { ...FIELD, cause }
  switch (systemCode(cause)) {
    case 'ENOENT':
    case 'ENOTDIR':
    case 'ENAMETOOLONG':
      return new Failure(
        'missing file',
        `There is no setup ${named(path)}; check its name and folder.`,
        why,
      )
    case 'EISDIR':
      return new Failure(
        'unreadable file',
        `${named(path)} is a folder; name the setup file in it.`,
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
