import { type ChildProcess, spawn } from 'node:child_process'
import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'

const COMMAND = fileURLToPath(new URL('../../bin/yellowroom.mjs', import.meta.url))
const READY = /Yellowroom is at (http:\/\/\S+)/

export type RealServer = Readonly<{ url: string; stop: () => Promise<void> }>

/**
 * Yellowroom itself on an empty folder, as somebody starts it. With YELLOWROOM_URL the one that
 * runs there already is asked instead; its folder must be empty.
 */
export async function startYellowroom(): Promise<RealServer> {
  const running = process.env['YELLOWROOM_URL']
  if (running !== undefined) return { url: running, stop: () => Promise.resolve() }
  const folder = await mkdtemp(join(tmpdir(), 'yellowroom-pages-'))
  const child = spawn(process.execPath, [COMMAND, 'start'], {
    env: { ...process.env, PORT: '0', HOST: '127.0.0.1', YELLOWROOM_DATA: folder },
  })
  try {
    return { url: await readyLine(child), stop: () => stopped(child, folder) }
  } catch (cause) {
    await stopped(child, folder)
    throw cause
  }
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

async function stopped(child: ChildProcess, folder: string): Promise<void> {
  if (child.exitCode === null) {
    const ended = new Promise((resolve) => child.once('close', resolve))
    child.kill('SIGTERM')
    await ended
  }
  await rm(folder, { recursive: true, force: true })
}
