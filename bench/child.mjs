// What the benches' child processes tell of themselves.
import { readFileSync } from 'node:fs'

export function seconds({ user, system }) {
  return (user + system) / 1e6
}

/** Peak of this process's own memory; maxRSS also counts the parent's, from before the program began. */
export function peakMb() {
  try {
    const [, kb] = /VmHWM:\s+(\d+) kB/.exec(readFileSync('/proc/self/status', 'utf8'))
    return Number(kb) / 1024
  } catch {
    return process.resourceUsage().maxRSS / 1024
  }
}
