// A picture of greys made into one film's bits, in a process of its own: prints CPU seconds, those of
// them that Node took to start, peak memory and the share that is black.
import { readFileSync } from 'node:fs'
import { SOLID } from '../dist/core/halftone/cellThresholds.js'
import { enlarged } from '../dist/raster/films/enlarge.js'
import { screenOf } from '../dist/raster/films/screen.js'
import { singleTones } from '../dist/raster/films/tones.js'
import { peakMb, seconds } from './child.mjs'

const { path, source, film, halftone } = JSON.parse(process.argv[2])
const begun = process.cpuUsage()
const grey = new Uint8Array(readFileSync(path))
const BAND_ROWS = 64

const artwork = {
  space: 'grey',
  ...source,
  bands: async function* () {
    for (let top = 0; top < source.heightPx; top += BAND_ROWS) {
      const rows = Math.min(BAND_ROWS, source.heightPx - top)
      const from = top * source.widthPx
      yield { rows, samples: grey.subarray(from, from + rows * source.widthPx) }
    }
  },
}
const screen = screenOf(halftone, { pixelUm: 25_400 / film.dpi })
const bits = new Uint8Array(Math.ceil(film.widthPx / 8))
let y = 0
let black = 0
let tones = 0
for await (const [row] of enlarged(singleTones(artwork), film).rows()) {
  screen.row(y, row, bits)
  if (y % 16 === 0) look(row)
  y += 1
}

function look(row) {
  for (let x = 0; x < row.length; x += 1) {
    tones += row[x] / SOLID
    black += (bits[x >> 3] >> (7 - (x & 7))) & 1
  }
}

const looked = film.widthPx * Math.ceil(film.heightPx / 16)
process.stdout.write(
  JSON.stringify({
    cpuSec: seconds(process.cpuUsage()),
    startSec: seconds(begun),
    peakMb: peakMb(),
    blackShare: black / looked,
    toneShare: tones / looked,
  }),
)
