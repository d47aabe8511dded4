import fs from 'node:fs'
import promises, { type FileHandle } from 'node:fs/promises'
import { syncBuiltinESMExports } from 'node:module'
import { resolve, sep } from 'node:path'

/** What reached the disk's driver, in its order. */
export type Step =
  | Readonly<{ kind: 'create'; path: string; isFolder: boolean }>
  | Readonly<{ kind: 'write'; path: string; at: number; bytes: Buffer }>
  | Readonly<{ kind: 'truncate'; path: string; size: number }>
  | Readonly<{ kind: 'rename'; path: string; to: string }>
  | Readonly<{ kind: 'remove'; path: string }>
  | Readonly<{ kind: 'sync'; path: string }>
  /** Something was promised to somebody. */
  | Readonly<{ kind: 'promised'; what: string }>

export type Recording = Readonly<{
  steps: readonly Step[]
  promise: (what: string) => void
  stop: () => void
}>

type Call = (...args: never[]) => unknown
type Module = Record<string, Call>

/**
 * Writes down everything that this process does to files below a folder, through either of Node's
 * file modules, while it really happens.
 */
export function recordDisk(folder: string): Recording {
  const [files, byPromise] = [fs, promises] as unknown as [Module, Module]
  const root = resolve(folder)
  const steps: Step[] = []
  const open = new Map<number, string>()
  const undo: (() => void)[] = []
  const ours = (path: unknown): string | null => {
    if (typeof path !== 'string') return null
    const full = resolve(path)
    return full === root || full.startsWith(root + sep) ? full : null
  }
  const isThere = (path: string): boolean => {
    try {
      fs.lstatSync(path)
      return true
    } catch {
      return false
    }
  }

  /** Puts `after` behind one function of a module; it hears the arguments and the result. */
  const watch = (
    module: Module,
    name: string,
    watcher: (call: () => unknown, args: readonly unknown[]) => unknown,
  ): void => {
    const real = module[name]
    if (real === undefined) throw new Error(`there is no ${name} to watch`)
    const watched = function (this: unknown, ...args: unknown[]): unknown {
      return watcher(() => real.apply(this, args as never[]), args)
    }
    module[name] = Object.assign(watched, real)
    undo.push(() => {
      module[name] = real
    })
  }
  const after = (result: unknown, then: (value: unknown) => void): unknown => {
    if (result instanceof Promise) {
      return result.then((value) => {
        then(value)
        return value as unknown
      })
    }
    then(result)
    return result
  }
  const made = (path: string, flags: unknown, wasThere: boolean): void => {
    const truncates =
      typeof flags === 'number'
        ? (flags & fs.constants.O_TRUNC) !== 0
        : String(flags).startsWith('w')
    if (!wasThere && isThere(path)) steps.push({ kind: 'create', path, isFolder: false })
    else if (truncates) steps.push({ kind: 'truncate', path, size: 0 })
  }

  watch(files, 'openSync', (call, [path, flags]) => {
    const full = ours(path)
    const wasThere = full !== null && isThere(full)
    const descriptor = call() as number
    if (full !== null) {
      open.set(descriptor, full)
      made(full, flags, wasThere)
    }
    return descriptor
  })
  watch(files, 'closeSync', (call, [descriptor]) => {
    open.delete(descriptor as number)
    return call()
  })
  watch(files, 'writeSync', (call, [descriptor, buffer, offset, length, position]) => {
    const path = open.get(descriptor as number)
    const count = call() as number
    if (path !== undefined) {
      const { buffer: memory, byteOffset } = buffer as Uint8Array<ArrayBuffer>
      if (typeof position !== 'number' || (length as number) < count)
        throw new Error('unexpected write')
      const bytes = Buffer.from(Buffer.from(memory, byteOffset + (offset as number), count))
      steps.push({ kind: 'write', path, at: position, bytes })
    }
    return count
  })
  watch(files, 'fsyncSync', (call, [descriptor]) =>
    after(call(), () => {
      const path = open.get(descriptor as number)
      if (path !== undefined) steps.push({ kind: 'sync', path })
    }),
  )
  watch(files, 'ftruncateSync', (call, [descriptor, size]) =>
    after(call(), () => {
      const path = open.get(descriptor as number)
      if (path !== undefined) steps.push({ kind: 'truncate', path, size: Number(size ?? 0) })
    }),
  )
  for (const module of [files, byPromise]) {
    const named = (name: string): string => (module === files ? `${name}Sync` : name)
    watch(module, named('truncate'), (call, [path, size]) =>
      after(call(), () => {
        const full = ours(path)
        if (full !== null) steps.push({ kind: 'truncate', path: full, size: Number(size ?? 0) })
      }),
    )
    watch(module, named('rename'), (call, [from, to]) =>
      after(call(), () => {
        const [path, target] = [ours(from), ours(to)]
        if (path !== null && target !== null) steps.push({ kind: 'rename', path, to: target })
      }),
    )
    watch(module, named('mkdir'), (call, [path]) => {
      const full = ours(path)
      const missing = full === null ? [] : missingFolders(full, root, isThere)
      return after(call(), () => {
        for (const one of missing) steps.push({ kind: 'create', path: one, isFolder: true })
      })
    })
    for (const name of ['unlink', 'rmdir', 'rm']) {
      watch(module, named(name), (call, [path]) => {
        const full = ours(path)
        const all = full === null ? [] : everythingBelow(full)
        return after(call(), () => {
          for (const one of all) steps.push({ kind: 'remove', path: one })
        })
      })
    }
  }
  watch(files, 'writeFileSync', (call, [path, content]) => {
    const full = ours(path)
    const wasThere = full !== null && isThere(full)
    return after(call(), () => {
      if (full === null) return
      if (content !== '' || wasThere) throw new Error('unexpected whole write')
      steps.push({ kind: 'create', path: full, isFolder: false })
    })
  })
  watch(byPromise, 'open', (call, [path, flags]) => {
    const full = ours(path)
    const wasThere = full !== null && isThere(full)
    return after(call(), (handle) => {
      if (full === null) return
      made(full, flags, wasThere)
      watchHandle(handle as FileHandle, full, steps)
    })
  })
  syncBuiltinESMExports()
  return {
    steps,
    promise: (what) => void steps.push({ kind: 'promised', what }),
    stop: () => {
      for (const one of undo.reverse()) one()
      syncBuiltinESMExports()
    },
  }
}

/** What we do with a file that was opened by promise: write from its end on, flush. */
function watchHandle(handle: FileHandle, path: string, steps: Step[]): void {
  let end = 0
  const real = { write: handle.write.bind(handle), sync: handle.sync.bind(handle) }
  const writeFile = handle.writeFile.bind(handle)
  Object.assign(handle, {
    write: async (bytes: Uint8Array, from: number, length: number) => {
      const result = await real.write(bytes, from, length)
      const written = bytes.subarray(from, from + result.bytesWritten)
      steps.push({ kind: 'write', path, at: end, bytes: Buffer.from(written) })
      end += result.bytesWritten
      return result
    },
    writeFile: async (content: string | Uint8Array) => {
      await writeFile(content)
      const bytes = Buffer.from(content as string)
      steps.push({ kind: 'write', path, at: end, bytes })
      end += bytes.byteLength
    },
    sync: async () => {
      await real.sync()
      steps.push({ kind: 'sync', path })
    },
  })
}

function missingFolders(path: string, root: string, isThere: (path: string) => boolean): string[] {
  const missing: string[] = []
  for (let one = path; one.length >= root.length && !isThere(one); one = resolve(one, '..')) {
    missing.unshift(one)
  }
  return missing
}

function everythingBelow(path: string): string[] {
  try {
    if (!fs.lstatSync(path).isDirectory()) return [path]
    return [
      ...fs.readdirSync(path).flatMap((name) => everythingBelow(`${path}${sep}${name}`)),
      path,
    ]
  } catch {
    return []
  }
}
