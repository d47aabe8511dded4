// One leak map from a film file, in a process of its own: prints CPU seconds and peak memory.
import { readFileSync } from 'node:fs'
import { withFilm } from '../dist/decode/openFilm.js'
import { leakMap } from '../dist/raster/leakMap.js'
import { DPI, SPREAD } from './leakMapCase.mjs'

await withFilm(process.argv[2], { resolutionDpi: DPI }, async ({ film }) => {
  let sum = 0
  for await (const { codes } of leakMap(film, SPREAD)) sum += codes[0] + codes[codes.length - 1]
  if (!(sum > 0)) throw new Error('the map is empty')
})
const { user, system } = process.cpuUsage()
process.stdout.write(JSON.stringify({ cpuSec: (user + system) / 1e6, peakMb: peakMb() }))

/** Peak of this process's own memory; maxRSS also counts the parent's, from before the program began. */
function peakMb() {
  try {
    const [, kb] = /VmHWM:\s+(\d+) kB/.exec(readFileSync('/proc/self/status', 'utf8'))
    return Number(kb) / 1024
  } catch {
    return process.resourceUsage().maxRSS / 1024
  }
}
