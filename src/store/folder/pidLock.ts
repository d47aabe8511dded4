import { randomUUID } from 'node:crypto'
import { link, readFile, rename, rm, writeFile } from 'node:fs/promises'
import { hostname } from 'node:os'
import { join } from 'node:path'
import { Failure } from '../../core/failure.ts'
import type { Lock } from './lock.ts'
import { named, refusedBy, systemCode } from './refused.ts'
import type { ShopFolder } from './shopFolder.ts'

type Holder = Readonly<{ pid: number; host: string; name: string }>

/**
 * A lock for systems without sockets that have no file: a file that names its holder.
 *
 * The lock of a dead process is taken over by whoever makes the one take-over file for that very
 * lock, so two who find it dead cannot both go in. A process that lives keeps its lock, even if its
 * number was given away again since: then the sentence says which file to remove.
 *
 * @returns null when a living process has it
 */
export async function pidLock(folder: ShopFolder): Promise<Lock | null> {
  const path = join(folder.path, 'yellowroom.json.lock')
  const own: Holder = { pid: process.pid, host: hostname(), name: randomUUID() }
  const draft = `${path}.${own.name}`
  try {
    await writeFile(draft, JSON.stringify(own), { flag: 'wx' })
    const taken = (await linked(draft, path)) || (await tookOver(path, draft))
    if (!taken) return null
  } catch (cause) {
    throw refusedBy(folder.path, cause)
  } finally {
    await rm(draft, { force: true })
  }
  return {
    release: async () => {
      if ((await holderOf(path))?.name === own.name) await rm(path, { force: true })
    },
  }
}

async function tookOver(path: string, draft: string): Promise<boolean> {
  const holder = await holderOf(path)
  if (holder === null) return linked(draft, path) // given back just now
  if (holder.host !== hostname()) throw fromElsewhere(path, holder)
  if (isRunning(holder.pid)) return false
  const claim = `${path}.over.${holder.name}`
  if (!(await linked(draft, claim))) return false
  const stillTheirs = (await holderOf(path))?.name === holder.name
  if (stillTheirs) await rename(claim, path)
  else await rm(claim, { force: true })
  return stillTheirs
}

/** A hard link appears at once with its whole content, or not at all. */
async function linked(from: string, to: string): Promise<boolean> {
  try {
    await link(from, to)
    return true
  } catch (cause) {
    if (systemCode(cause) === 'EEXIST') return false
    throw cause
  }
}

async function holderOf(path: string): Promise<Holder | null> {
  let text: string
  try {
    text = await readFile(path, 'utf8')
  } catch (cause) {
    if (systemCode(cause) === 'ENOENT') return null
    throw cause
  }
  try {
    const { pid, host, name } = JSON.parse(text) as Holder
    if (Number.isInteger(pid) && typeof host === 'string' && /^[\w-]+$/.test(name)) {
      return { pid, host, name }
    }
  } catch {
    // Damaged: nobody can tell who holds it.
  }
  const message = `${named(path)} does not say who has the shop open: make sure that no Yellowroom runs on it, then remove that file.`
  throw new Failure('shop in use', message)
}

function fromElsewhere(path: string, { host }: Holder): Failure {
  const message = `The computer ${named(host)} has this shop open: stop Yellowroom there. If it does not run any more, remove ${named(path)}.`
  return new Failure('shop in use', message)
}

function isRunning(pid: number): boolean {
  try {
    process.kill(pid, 0)
    return true
  } catch (cause) {
    return systemCode(cause) === 'EPERM'
  }
}
