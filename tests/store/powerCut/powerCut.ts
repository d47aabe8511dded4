import { mkdir, readdir, readFile, writeFile } from 'node:fs/promises'
import { dirname, join, relative } from 'node:path'
import type { Step } from './diskRecorder.ts'

/** A file or folder as the disk knows it: what it surely holds, and what may or may not be there. */
type Node = { isFolder: boolean; room: Buffer; size: number; waiting: (Write | Truncate)[] }
type Write = Readonly<{ kind: 'write'; at: number; bytes: Buffer }>
type Truncate = Readonly<{ kind: 'truncate'; size: number }>
/** A change of names. They reach the disk in their order, as a journalling file system keeps them. */
type Naming = Readonly<{ touches: readonly string[]; apply: (names: Map<string, Node>) => void }>

/**
 * Leaves in `to` what a disk holds when the power fails after some of the recorded steps.
 *
 * Flushed writes are there. Of the rest each write is there with the chance `kept`, whole, in any
 * order; names that were made, moved or removed are there up to some point in their order, and at
 * least up to those that were flushed: a file's own name with the file, all names in a folder with
 * the folder.
 *
 * @param from what the folder held, all of it flushed, before the recording began
 * @param random numbers in 0 … 1
 */
export async function cutPower(
  { from, to }: Readonly<{ from: string | null; to: string }>,
  {
    root,
    steps,
    kept,
    random,
  }: Readonly<{ root: string; steps: readonly Step[]; kept: number; random: () => number }>,
): Promise<void> {
  const now = new Map<string, Node>()
  if (from !== null) await read(from, from, now)
  const onDisk = new Map(now)
  const pending: Naming[] = []
  const place = (path: string): string => relative(root, path)

  const name = (naming: Naming): void => {
    naming.apply(now)
    pending.push(naming)
  }
  const flushNames = (upTo: number): void => {
    for (const naming of pending.splice(0, upTo + 1)) naming.apply(onDisk)
  }

  for (const step of steps) {
    switch (step.kind) {
      case 'create': {
        const node: Node = { isFolder: step.isFolder, room: NOTHING, size: 0, waiting: [] }
        const path = place(step.path)
        name({ touches: [path], apply: (names) => void names.set(path, node) })
        break
      }
      case 'write':
        now.get(place(step.path))?.waiting.push(step)
        break
      case 'truncate':
        now.get(place(step.path))?.waiting.push(step)
        break
      case 'rename': {
        const [path, target] = [place(step.path), place(step.to)]
        const moved = now.get(path)
        if (moved === undefined) throw new Error(`${path} was moved and never made`)
        name({
          touches: [path, target],
          apply: (names) => {
            names.delete(path)
            names.set(target, moved)
          },
        })
        break
      }
      case 'remove': {
        const path = place(step.path)
        name({ touches: [path], apply: (names) => void names.delete(path) })
        break
      }
      case 'sync': {
        const path = place(step.path)
        const node = now.get(path)
        if (node !== undefined) settle(node, () => true)
        const isFlushed = ({ touches }: Naming): boolean =>
          node?.isFolder === false
            ? touches.includes(path)
            : touches.some((one) => (dirname(one) === '.' ? '' : dirname(one)) === path)
        flushNames(pending.findLastIndex(isFlushed))
        break
      }
      case 'promised':
        break
    }
  }
  const lost = pending.findIndex(() => random() >= kept)
  flushNames((lost === -1 ? pending.length : lost) - 1)
  await mkdir(to, { recursive: true })
  for (const [path, node] of [...onDisk].sort(([a], [b]) => (a < b ? -1 : 1))) {
    if (node.isFolder) {
      await mkdir(join(to, path), { recursive: true, mode: 0o700 })
    } else {
      settle(node, () => random() < kept)
      await mkdir(dirname(join(to, path)), { recursive: true })
      await writeFile(join(to, path), node.room.subarray(0, node.size))
    }
  }
}

const NOTHING = Buffer.alloc(0)

/** Takes the writes that wait, those that `isKept` says, into what is surely there. */
function settle(node: Node, isKept: () => boolean): void {
  for (const one of node.waiting) {
    if (!isKept()) continue
    if (one.kind === 'truncate') {
      resize(node, one.size)
    } else {
      resize(node, Math.max(node.size, one.at + one.bytes.byteLength))
      one.bytes.copy(node.room, one.at)
    }
  }
  node.waiting = []
}

/** What is new holds zeros. */
function resize(node: Node, size: number): void {
  if (size > node.room.byteLength) {
    const room = Buffer.alloc(Math.max(size, 2 * node.room.byteLength))
    node.room.copy(room, 0, 0, node.size)
    node.room = room
  } else if (size < node.size) {
    node.room.fill(0, size, node.size)
  }
  node.size = size
}

async function read(root: string, folder: string, into: Map<string, Node>): Promise<void> {
  for (const entry of await readdir(folder, { withFileTypes: true })) {
    const path = join(folder, entry.name)
    const isFolder = entry.isDirectory()
    const room = isFolder ? NOTHING : await readFile(path)
    into.set(relative(root, path), { isFolder, room, size: room.byteLength, waiting: [] })
    if (isFolder) await read(root, path, into)
  }
}
