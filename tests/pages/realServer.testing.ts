import { type ChildProcess, spawn } from 'node:child_process'
import { readFileSync } from 'node:fs'
import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { QUICK_START } from '../store/quickStart.ts'
import { emptyShopIn } from '../store/scratch.ts'

const COMMAND = fileURLToPath(new URL('../../bin/yellowroom.mjs', import.meta.url))
const READY = /Yellowroom is at (http:\/\/\S+)/

export type RealServer = Readonly<{ url: string; stop: () => Promise<void> }>

/** One whose folder and processes can be got at. */
export type OwnServer = RealServer &
  Readonly<{
    folder: string
    /** Ends it as a power cut would. */
    kill: () => Promise<void>
    /** Starts it again on the same folder and port. */
    startAgain: () => Promise<void>
    /** Those of its processes that read films; Linux alone tells. */
    readers: () => readonly number[]
  }>

/**
 * Yellowroom itself on an empty folder, as somebody starts it. With YELLOWROOM_URL the one that
 * runs there already is asked instead; its folder must be empty.
 */
export async function startYellowroom(): Promise<RealServer> {
  const running = process.env['YELLOWROOM_URL']
  if (running !== undefined) return { url: running, stop: () => Promise.resolve() }
  return startIn(await newFolder())
}

/** The same where the database has been made before: quicker by what making one takes. */
export async function startOwnYellowroom(): Promise<OwnServer> {
  return startIn(await emptyShopIn(await newFolder()))
}

function newFolder(): Promise<string> {
  return mkdtemp(join(tmpdir(), 'yellowroom-pages-'))
}

async function startIn(folder: string): Promise<OwnServer> {
  let child = started(folder, '0')
  try {
    const url = await readyLine(child)
    return {
      url,
      folder,
      stop: () => stopped(child, folder),
      kill: () => ended(child, 'SIGKILL'),
      startAgain: async () => {
        child = started(folder, new URL(url).port)
        await readyLine(child)
      },
      readers: () => readersOf(child.pid ?? 0),
    }
  } catch (cause) {
    await stopped(child, folder)
    throw cause
  }
}

function started(folder: string, port: string): ChildProcess {
  return spawn(process.execPath, [...QUICK_START, COMMAND, 'start'], {
    env: { ...process.env, PORT: port, HOST: '127.0.0.1', YELLOWROOM_DATA: folder },
  })
}

function readyLine(child: ChildProcess): Promise<string> {
  return new Promise((resolve, reject) => {
    let said = ''
    const hear = (part: Buffer): void => {
      said += part.toString()
      const url = READY.exec(said)?.[1]
      if (url !== undefined) resolve(url)
    }
    child.stdout?.on('data', hear)
    child.stderr?.on('data', hear)
    child.once('close', (code) => reject(new Error(`Yellowroom ended with ${code}: ${said}`)))
  })
}

function readersOf(pid: number): readonly number[] {
  const children = readFileSync(`/proc/${pid}/task/${pid}/children`, 'utf8').trim().split(' ')
  return children.filter((child) => commandOf(child).includes('workProcess')).map(Number)
}

function commandOf(pid: string): string {
  try {
    return readFileSync(`/proc/${pid}/cmdline`, 'utf8')
  } catch {
    return '' // it ended meanwhile
  }
}

async function ended(child: ChildProcess, signal: NodeJS.Signals): Promise<void> {
  if (child.exitCode !== null || child.signalCode !== null) return
  const end = new Promise((resolve) => child.once('close', resolve))
  child.kill(signal)
  await end
}

async function stopped(child: ChildProcess, folder: string): Promise<void> {
  await ended(child, 'SIGTERM')
  await rm(folder, { recursive: true, force: true, maxRetries: 5 })
}
