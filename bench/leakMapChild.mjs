// One leak map in a process of its own: prints CPU seconds and peak memory. From a film file, all
// counted from the start of Node; from raw bits (one a byte, 1 = black, and the film's width and
// height), the folding alone, once the samples stand in memory.
import { readFileSync } from 'node:fs'
import { leakMap } from '../dist/raster/leakMap.js'
import { peakMb, seconds } from './child.mjs'
import { DPI, SPREAD } from './leakMapCase.mjs'

const [path, width, height] = process.argv.slice(2)
if (width === undefined) {
  const { withFilm } = await import('../dist/decode/openFilm.js')
  await withFilm(path, { resolutionDpi: DPI }, ({ film }) => fold(film))
  tell(process.cpuUsage())
} else {
  const film = rawFilm(Number(width), Number(height))
  const before = process.cpuUsage()
  await fold(film)
  tell(process.cpuUsage(before))
}

async function fold(film) {
  let sum = 0
  for await (const { codes } of leakMap(film, SPREAD)) sum += codes[0] + codes[codes.length - 1]
  if (!(sum > 0)) throw new Error('the map is empty')
}

/** As a film file of two tones is read: black 0 of density 3.5, clear 255. */
function rawFilm(widthPx, heightPx) {
  const samples = readFileSync(path)
  for (let at = 0; at < samples.length; at += 1) samples[at] = samples[at] === 1 ? 0 : 255
  const transmissionOf = Float32Array.from({ length: 256 }, (_, at) =>
    Math.max(10 ** -3.5, at / 255),
  )
  return {
    widthPx,
    heightPx,
    pixelUm: 25_400 / DPI,
    transmissionOf,
    async *bands() {
      for (let top = 0; top < heightPx; top += 64) {
        const rows = Math.min(64, heightPx - top)
        yield { top, rows, samples: samples.subarray(top * widthPx, (top + rows) * widthPx) }
      }
    },
  }
}

function tell(used) {
  process.stdout.write(JSON.stringify({ cpuSec: seconds(used), peakMb: peakMb() }))
}
