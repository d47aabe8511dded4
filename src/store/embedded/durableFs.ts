import { fsyncSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { NodeFS } from '@electric-sql/pglite/nodefs'
import { systemCode } from '../folder/refused.ts'

type Init = NodeFS['init']
type Node = Readonly<{ parent: Node }>
type Stream = Readonly<{ nfd: number; node: Node }>
type Operation = (...args: never[]) => unknown
type Operations = Record<string, Operation>

/** What we touch inside the database's own file layer; not part of its declared types. */
type FileLayer = Readonly<{
  NODEFS: Readonly<{
    stream_ops: Operations & { fsync?: (stream: Stream) => number }
    node_ops: Operations
    realPath: (node: Node) => string
  }>
  FS: Readonly<{ ErrnoError: new (code: number) => Error }>
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
  /**
   * Everything below was flushed just before, and only what was touched since needs it again: after
   * an unclean stop the database asks for every file there is, one by one.
   */
  isSettled = false
  readonly #touched = new Set<string>()

  override async init(...[database, options]: Parameters<Init>): ReturnType<Init> {
    const prepared = await super.init(database, options)
    prepared.emscriptenOpts.preRun?.push((module) => {
      const layer = module as unknown as FileLayer
      this.#watch(layer)
      layer.NODEFS.stream_ops.fsync = (stream) => this.#flush(stream, layer)
    })
    return prepared
  }

  #flush({ nfd, node }: Stream, { NODEFS, FS }: FileLayer): number {
    if (this.isSettled && !this.#touched.has(NODEFS.realPath(node))) return 0
    try {
      fsyncSync(nfd)
      this.syncs++
    } catch (cause) {
      const code = systemCode(cause)
      if (!NOT_FOR_FLUSHING.has(code)) throw new FS.ErrnoError(NUMBERS[code] ?? 29)
    }
    return 0
  }

  /** Notes what is written, resized, made, moved or removed, and the folders whose names change. */
  #watch({ NODEFS }: FileLayer): void {
    const { stream_ops, node_ops, realPath } = NODEFS
    const touch = (...paths: readonly string[]): void => {
      if (this.isSettled) for (const path of paths) this.#touched.add(path)
    }
    const before = (ops: Operations, name: string, note: Operation): void => {
      const real = ops[name]
      if (real === undefined) throw new RangeError(`file layer: expected ${name}, got none`)
      ops[name] = (...args) => {
        note(...args)
        return real(...args)
      }
    }
    const named = (parent: Node, name: string): void => {
      const folder = realPath(parent)
      touch(folder, join(folder, name))
    }
    before(stream_ops, 'write', ({ node }: Stream) => touch(realPath(node)))
    before(stream_ops, 'setattr', ({ node }: Stream) => touch(realPath(node)))
    before(node_ops, 'setattr', (node: Node) => touch(realPath(node)))
    for (const name of ['mknod', 'unlink', 'rmdir', 'symlink']) before(node_ops, name, named)
    before(node_ops, 'rename', (node: Node, parent: Node, name: string) => {
      const from = realPath(node)
      touch(from, dirname(from))
      named(parent, name)
    })
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
