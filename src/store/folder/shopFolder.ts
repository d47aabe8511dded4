import { mkdir, readdir, readFile, realpath, rm, stat } from 'node:fs/promises'
import { dirname, join, resolve } from 'node:path'
import { Failure } from '../../core/failure.ts'
import { writeWhole } from './durable.ts'
import { named, refusedBy, systemCode } from './refused.ts'

/** The places in a shop's folder; all absolute. */
export type ShopFolder = Readonly<{
  path: string
  /** Says that this is a shop's folder, and how it is laid out. */
  mark: string
  database: string
  /** Stands while the database is made for the first time: what is there then is not yet one. */
  unfinished: string
  blobs: string
  /** Files that come in and are not whole yet. */
  incoming: string
  /** Where the running server is, and the token for it. */
  server: string
}>

const MARK = 'yellowroom.json'
/** How the folder is laid out; a program of another number leaves it alone. */
const LAYOUT = 1
/** What systems put into empty folders by themselves. */
const NO_CONTENT = new Set(['.DS_Store', 'Thumbs.db', 'desktop.ini', 'lost+found'])

type Mark = Readonly<{ kind: string; layout: number; state: 'open' | 'being restored' }>

export function placesIn(path: string): ShopFolder {
  return {
    path,
    mark: join(path, MARK),
    database: join(path, 'database'),
    unfinished: join(path, 'database.unfinished'),
    blobs: join(path, 'blobs'),
    incoming: join(path, 'incoming'),
    server: join(path, 'server.json'),
  }
}

/**
 * Makes the folder if it is not there, and gives its real path: what the lock is taken on.
 *
 * @throws Failure 'cannot write' in one sentence
 */
export async function madeFolder(path: string): Promise<ShopFolder> {
  try {
    await makeFolders(path)
    const status = await stat(path)
    if (!status.isDirectory()) {
      throw Object.assign(new Error('not a folder'), { code: 'ENOTDIR' })
    }
    return placesIn(await realpath(path))
  } catch (cause) {
    throw refusedBy(path, cause)
  }
}

/**
 * Makes a folder and those that it lies in, one by one: the system's way of making them at once
 * does not say what refused, and never ends where nothing can be made.
 */
async function makeFolders(path: string): Promise<void> {
  const missing: string[] = []
  for (let one = resolve(path); !(await isThere(one)); one = dirname(one)) missing.unshift(one)
  for (const one of missing) {
    await mkdir(one).catch((cause: unknown) => {
      if (systemCode(cause) !== 'EEXIST') throw cause
    })
  }
}

async function isThere(path: string): Promise<boolean> {
  return stat(path).then(
    () => true,
    () => false,
  )
}

/**
 * Makes sure that this is a shop's folder that we may write in; an empty one becomes one.
 *
 * @param alone the lock is ours: what came in half before is nobody's any more
 * @throws Failure 'wrong input' for a folder of other things, 'cannot write' for one that refuses,
 * 'world failed' for one laid out by a newer program or whose restoring was interrupted
 */
export async function claimFolder(
  folder: ShopFolder,
  { alone }: Readonly<{ alone: boolean }>,
): Promise<void> {
  const mark = await readMark(folder)
  try {
    if (mark === null) {
      await refuseOtherThings(folder)
      await writeMark(folder, 'open')
    } else {
      await probe(folder)
    }
    if (alone) await rm(folder.incoming, { recursive: true, force: true })
    await makePlaces(folder)
  } catch (cause) {
    throw refusedBy(folder.path, cause)
  }
}

/** The folders in it that files are kept in. */
export async function makePlaces(folder: ShopFolder): Promise<void> {
  for (const place of [folder.incoming, folder.blobs]) await mkdir(place, { recursive: true })
}

/** Whether the folder holds nothing yet, or is not even there. */
export async function isEmptyFolder(path: string): Promise<boolean> {
  try {
    return (await readdir(path)).every((name) => NO_CONTENT.has(name))
  } catch (cause) {
    if (systemCode(cause) === 'ENOENT') return true
    throw refusedBy(path, cause)
  }
}

/** Marks the folder as a shop's: open, or one that a backup is being written into. */
export async function writeMark(folder: ShopFolder, state: Mark['state']): Promise<void> {
  const mark: Mark = { kind: 'yellowroom shop', layout: LAYOUT, state }
  await writeWhole(folder.mark, { content: `${JSON.stringify(mark)}\n` })
}

async function readMark(folder: ShopFolder): Promise<Mark | null> {
  let text: string
  try {
    text = await readFile(folder.mark, 'utf8')
  } catch (cause) {
    if (systemCode(cause) === 'ENOENT') return null
    throw refusedBy(folder.path, cause)
  }
  const mark = markFrom(text)
  if (mark === null) {
    const message = `${named(folder.mark)} is damaged: restore the shop's newest backup into an empty folder.`
    throw new Failure('world failed', message)
  }
  if (mark.layout > LAYOUT) {
    const message = `The shop in ${named(folder.path)} was last opened by a newer Yellowroom: start that one. Nothing was changed.`
    throw new Failure('world failed', message)
  }
  if (mark.state === 'being restored') {
    const message = `Restoring a backup into ${named(folder.path)} was interrupted: empty the folder and restore again.`
    throw new Failure('world failed', message)
  }
  return mark
}

function markFrom(text: string): Mark | null {
  try {
    const { kind, layout, state = 'open' } = JSON.parse(text) as Partial<Mark>
    return kind === 'yellowroom shop' && typeof layout === 'number' ? { kind, layout, state } : null
  } catch {
    return null
  }
}

async function refuseOtherThings(folder: ShopFolder): Promise<void> {
  const drafts = (name: string): boolean => name.startsWith(`${MARK}.`)
  const names = await readdir(folder.path)
  const others = names.filter((name) => !NO_CONTENT.has(name) && !drafts(name))
  const [first] = others
  if (first === undefined) return
  const message = `${named(folder.path)} is no shop's folder (it holds ${named(first)}): name an empty one in YELLOWROOM_DATA, or one that a shop lives in.`
  throw new Failure('wrong input', message, { field: 'YELLOWROOM_DATA' })
}

/** A folder we may read but not write is found out now, not at the first save. */
async function probe(folder: ShopFolder): Promise<void> {
  const path = `${folder.mark}.probe`
  await writeWhole(path, { content: '' })
  await rm(path)
}
