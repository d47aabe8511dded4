import { rmSync } from 'node:fs'
import { rm } from 'node:fs/promises'

/** Temporary files and folders that still stand: nothing of ours outlives the process. */
const standing = new Set<string>()
let watching = false

/** Remembers a temporary file or folder until `removeLeftover`, at the latest until the exit. */
export function rememberLeftover(path: string): void {
  if (!watching) {
    watching = true
    process.on('exit', () => {
      for (const path of standing) rmSync(path, { recursive: true, force: true })
    })
  }
  standing.add(path)
}

/** Removes it; one that resists (still open, on some systems) stays remembered. */
export async function removeLeftover(path: string): Promise<void> {
  try {
    await rm(path, { recursive: true, force: true })
    standing.delete(path)
  } catch {
    // The exit tries again.
  }
}

/** It became something that stays: nothing to remove any more. */
export function keepLeftover(path: string): void {
  standing.delete(path)
}
