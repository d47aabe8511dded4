import { createReadStream } from 'node:fs'
import { open, rm } from 'node:fs/promises'
import { join } from 'node:path'
import type { At } from '../database/record.ts'
import { refusedBy } from '../folder/refused.ts'
import type { ShopFolder } from '../folder/shopFolder.ts'
import { sortableId } from '../ids.ts'
import type { Sink } from './tar.ts'

/**
 * Hands a sink what was written once all of it was, from a file that is gone afterwards. Who reads
 * rows holds the database meanwhile and everybody waits: that must not last as long as somebody far
 * away takes to read on, or stands still.
 *
 * @throws Failure 'cannot write' when the disk is full or refuses; what `write` and the sink throw
 */
export async function heldBack<Result>(
  folder: ShopFolder,
  { sink, at }: Readonly<{ sink: Sink }> & At,
  write: (sink: Sink) => Promise<Result>,
): Promise<Result> {
  const draft = join(folder.incoming, `rows-${sortableId(at)}`)
  const refused = (cause: unknown): never => {
    throw refusedBy(folder.path, cause)
  }
  try {
    const file = await open(draft, 'wx', 0o600).catch(refused)
    let result: Result
    try {
      result = await write((bytes) => file.appendFile(bytes).catch(refused))
    } finally {
      await file.close()
    }
    for await (const part of createReadStream(draft) as AsyncIterable<Uint8Array>) await sink(part)
    return result
  } finally {
    await rm(draft, { force: true })
  }
}
