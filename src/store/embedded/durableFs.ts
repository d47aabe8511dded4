import { fsyncSync } from 'node:fs'
import { NodeFS } from '@electric-sql/pglite/nodefs'
import { systemCode } from '../folder/refused.ts'

type Init = NodeFS['init']
type Stream = Readonly<{ nfd: number }>

/** What we touch inside the database's own file layer; not part of its declared types. */
type FileLayer = Readonly<{
  NODEFS: { stream_ops: { fsync?: (stream: Stream) => number } }
  FS: { ErrnoError: new (code: number) => Error }
}>

/** The system's words in the numbers of the database's own world (WASI). */
const NUMBERS: Readonly<Record<string, number>> = {
  EACCES: 2,
  EDQUOT: 19,
  EFBIG: 22,
  EIO: 29,
  ENOSPC: 51,
  EPERM: 63,
  EROFS: 69,
}
/** A stream that cannot be flushed, a folder on some systems, says one of these. */
const NOT_FOR_FLUSHING = new Set(['EINVAL', 'EBADF'])

/**
 * The database's files on this disk, flushed when the database asks for it: as it comes, its file
 * layer has no way to flush and every such wish is lost, so a power cut would lose saved work.
 *
 * Rests on internals, so every start proves that the count rises with a commit.
 */
export class DurableNodeFS extends NodeFS {
  /** Times that something was flushed to the disk. */
  syncs = 0

  override async init(...[database, options]: Parameters<Init>): ReturnType<Init> {
    const prepared = await super.init(database, options)
    prepared.emscriptenOpts.preRun?.push((module) => {
      const { NODEFS, FS } = module as unknown as FileLayer
      NODEFS.stream_ops.fsync = ({ nfd }) => {
        try {
          fsyncSync(nfd)
          this.syncs++
        } catch (cause) {
          const code = systemCode(cause)
          if (!NOT_FOR_FLUSHING.has(code)) throw new FS.ErrnoError(NUMBERS[code] ?? 29)
        }
        return 0
      }
    })
    return prepared
  }
}

/** An error of the database's file layer, which is no Error and a number, in the system's word. */
export function inSystemWords(error: unknown): unknown {
  if (error instanceof Error || typeof error !== 'object' || error === null) return error
  const number = 'errno' in error ? error.errno : null
  const code = Object.keys(NUMBERS).find((word) => NUMBERS[word] === number)
  const message = `the database's files: error ${String(number)}`
  return Object.assign(new Error(message), code === undefined ? {} : { code })
}
