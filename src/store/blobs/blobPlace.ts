import { join } from 'node:path'
import { Failure } from '../../core/failure.ts'
import type { ShopFolder } from '../folder/shopFolder.ts'

/** Whether a text can be the address of a file's content at all. */
export function isSha256(text: string): boolean {
  return /^[0-9a-f]{64}$/.test(text)
}

/**
 * Where the file with this content lies. Nothing that came from outside becomes a path: only the
 * 64 signs of an address do.
 *
 * @throws Failure 'not found' for a text that is no address
 */
export function blobPath(folder: ShopFolder, sha256: string): string {
  if (!isSha256(sha256)) throw noSuchFile()
  return join(folder.blobs, sha256.slice(0, 2), sha256.slice(2))
}

export function noSuchFile(cause?: unknown): Failure {
  const message =
    'There is no such file in this shop; it may have been removed since the page was drawn.'
  return new Failure('not found', message, { cause })
}
