// A picture of greys made into one film's bits, or into a Group 4 TIFF of them, in a process of its own:
// prints CPU seconds, those of them that Node took to start, and peak memory; of one that is checked, the
// shares that are black and that were asked for.
import { closeSync, openSync, readSync, writeSync } from 'node:fs'
import { SOLID } from '../dist/core/halftone/solid.js'
import { writeBilevelTiff } from '../dist/formats/bilevelTiff.js'
import { enlarged } from '../dist/raster/films/enlarge.js'
import { screenOf } from '../dist/raster/films/screen.js'
import { screenedBands } from '../dist/raster/films/screenedBands.js'
import { singleTones } from '../dist/raster/films/tones.js'
import { peakMb, seconds } from './child.mjs'

const { path, source, film, halftone, isChecked, out } = JSON.parse(process.argv[2])
const begun = process.cpuUsage()
const BAND_ROWS = 64

const artwork = {
  space: 'grey',
  ...source,
  bands: async function* () {
    const file = openSync(path, 'r')
    const room = new Uint8Array(BAND_ROWS * source.widthPx)
    for (let top = 0; top < source.heightPx; top += BAND_ROWS) {
      const rows = Math.min(BAND_ROWS, source.heightPx - top)
      const samples = room.subarray(0, rows * source.widthPx)
      readSync(file, samples, 0, samples.length, top * source.widthPx)
      yield { rows, samples }
    }
    closeSync(file)
  },
}
const screen = screenOf(halftone, { pixelUm: 25_400 / film.dpi })
const made = enlarged(singleTones(artwork, screen.table), film)
let [black, sum] = [0, 0]

/** Bits in bands, which are used again and again. */
async function* bands() {
  const range = { from: 0, to: film.heightPx, bandRows: BAND_ROWS }
  for await (const band of screenedBands(made, { screens: [screen], ...range })) {
    yield { rows: band.rows, bits: band.bits[0] }
  }
}

if (out !== undefined) await writeFilm(out)
else for await (const { bits } of bands()) if (isChecked) count(bits)
if (isChecked) {
  for await (const [row] of enlarged(singleTones(artwork), film).rows()) {
    for (const tone of row) sum += tone
  }
}

function count(bits) {
  for (const byte of bits) for (let rest = byte; rest > 0; rest &= rest - 1) black += 1
}

async function writeFilm(name) {
  const file = openSync(name, 'w')
  let at = 0
  const sink = {
    write: async (bytes) => {
      at += writeSync(file, bytes, 0, bytes.length, at)
    },
    rewrite: async (offset, bytes) => {
      writeSync(file, bytes, 0, bytes.length, offset)
    },
  }
  await writeBilevelTiff({ ...film, pixelUm: 25_400 / film.dpi, bands: bands() }, { sink })
  closeSync(file)
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
