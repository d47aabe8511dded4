// A picture of greys made into one film's bits, in a process of its own: prints CPU seconds, those of
// them that Node took to start, and peak memory; of one that is checked, the shares that are black and that
// were asked for.
import { readFileSync } from 'node:fs'
import { SOLID } from '../dist/core/halftone/solid.js'
import { enlarged } from '../dist/raster/films/enlarge.js'
import { screenOf } from '../dist/raster/films/screen.js'
import { singleTones } from '../dist/raster/films/tones.js'
import { peakMb, seconds } from './child.mjs'

const { path, source, film, halftone, isChecked } = JSON.parse(process.argv[2])
const begun = process.cpuUsage()
const grey = readFileSync(path)
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
const rowBytes = Math.ceil(film.widthPx / 8)
const bits = new Uint8Array(rowBytes)
const made = enlarged(singleTones(artwork, screen.table), film)
const tones = isChecked ? enlarged(singleTones(artwork), film).rows()[Symbol.asyncIterator]() : null
let [y, black, sum] = [0, 0, 0]
for await (const [row] of made.rows()) {
  screen.drawn(y, row, bits)
  y += 1
  if (tones === null) continue
  for (const byte of bits) for (let rest = byte; rest > 0; rest &= rest - 1) black += 1
  for (const tone of (await tones.next()).value[0]) sum += tone
}

const pixels = film.widthPx * film.heightPx
process.stdout.write(
  JSON.stringify({
    cpuSec: seconds(process.cpuUsage()),
    startSec: seconds(begun),
    peakMb: peakMb(),
    blackShare: black / pixels,
    toneShare: sum / SOLID / pixels,
  }),
)
