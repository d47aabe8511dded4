import { spawn } from 'node:child_process'
import { writeFileSync } from 'node:fs'
import { createInterface } from 'node:readline'
import { setTimeout as sleep } from 'node:timers/promises'
import { fileURLToPath } from 'node:url'
import { QUICK_START } from '../quickStart.ts'

const CHILD = fileURLToPath(new URL('child.mjs', import.meta.url))

export type Work = 'first' | 'rows' | 'blobs'

/** What one process said before it was killed, or before it ended by itself. */
export type Life = Readonly<{ said: readonly string[]; killed: boolean; stderr: string }>

/**
 * Lets a process work on the shop and kills it, as `kill -9` does, some time after it said `from`.
 *
 * @param acknowledged what all before it had acknowledged; it holds the shop to that first
 */
export async function live(
  folder: string,
  {
    work,
    acknowledged,
    kill,
  }: Readonly<{
    work: Work
    acknowledged: readonly string[]
    kill: Readonly<{ from: string; afterMs: number }> | null
  }>,
): Promise<Life> {
  const list = `${folder}.acknowledged`
  writeFileSync(list, acknowledged.join('\n'))
  const child = spawn(process.execPath, [...QUICK_START, CHILD, folder, work, list], {
    stdio: ['ignore', 'pipe', 'pipe'],
  })
  const said: string[] = []
  let stderr = ''
  let isAimed = false
  child.stderr.on('data', (part) => (stderr += String(part)))
  const ended = new Promise((resolve) => child.once('close', resolve))
  const lines = createInterface({ input: child.stdout })
  lines.on('line', (line) => {
    said.push(line)
    if (kill === null || !line.startsWith(kill.from) || isAimed) return
    isAimed = true
    void sleep(kill.afterMs).then(() => child.kill('SIGKILL'))
  })
  await ended
  return { said, killed: child.signalCode === 'SIGKILL', stderr }
}

export const acknowledgedIn = (said: readonly string[]): readonly string[] =>
  said.filter((line) => /^(row|blob) /.test(line))

/** Numbers in 0 … 1, the same for the same seed. */
export function chance(seed: number): () => number {
  let state = seed
  return () => {
    state = (state + 0x6d2b79f5) | 0
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state)
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32
  }
}
