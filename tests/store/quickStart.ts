import { spawnSync } from 'node:child_process'
import { setFlagsFromString } from 'node:v8'

const FLAG = '--liftoff-only'

/**
 * Tells Node.js to compile WebAssembly quickly and not well: a database that lives for a second is
 * open in half the time. For tests alone; a version that does not know the flag goes without.
 */
export const QUICK_START: readonly string[] =
  spawnSync(process.execPath, [FLAG, '-e', '']).status === 0 ? [FLAG] : []

/** The same for this process, before it opens its first database. */
export function startQuickly(): void {
  for (const flag of QUICK_START) setFlagsFromString(flag)
}
