import { SETUP_BYTES_AT_MOST, setupFromJson } from '../workflow/readSetup.ts'
import type { Setup } from '../workflow/setup.ts'
import { readTextFile } from './textFile.ts'

/** What makes a setup of a file's text. */
export type ReadSetup = (text: string) => Setup

/**
 * Reads a setup from a file or a pipe, and never more of it than a setup can be.
 *
 * @throws Failure 'missing file', 'unreadable file', 'too large', or what is wrong in it
 */
export async function readSetupFile(path: string, read: ReadSetup = setupFromJson): Promise<Setup> {
  return read(
    await readTextFile(path, { what: 'setup', field: 'setup', mostBytes: SETUP_BYTES_AT_MOST }),
  )
}
