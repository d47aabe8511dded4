// One film of plain bits written as Group 4 TIFF or as PDF, in a process of its own: prints CPU
// seconds, those of them that Node took to start, and peak memory.
import { closeSync, openSync, readSync, writeSync } from 'node:fs'
import { deflater } from '../dist/decode/deflater.js'
import { writeBilevelTiff } from '../dist/formats/bilevelTiff.js'
import { writeFilmPdf } from '../dist/formats/filmPdf.js'
import { peakMb, seconds } from './child.mjs'

const { path, plainAt, widthPx, heightPx, dpi, format, out } = JSON.parse(process.argv[2])
const BAND_ROWS = 64
const begun = process.cpuUsage()
const rowBytes = Math.ceil(widthPx / 8)
const [source, target] = [openSync(path, 'r'), openSync(out, 'w')]

function* bands() {
  const room = new Uint8Array(BAND_ROWS * rowBytes)
  for (let top = 0; top < heightPx; top += BAND_ROWS) {
    const rows = Math.min(BAND_ROWS, heightPx - top)
    const bits = room.subarray(0, rows * rowBytes)
    const read = readSync(source, bits, 0, bits.length, plainAt + top * rowBytes)
    if (read !== bits.length) throw new Error('the film ends early')
    yield { rows, bits }
  }
}

let at = 0
const sink = {
  write: async (bytes) => {
    at += writeSync(target, bytes, 0, bytes.length, at)
  },
  rewrite: async (offset, bytes) => {
    writeSync(target, bytes, 0, bytes.length, offset)
  },
}
const film = { widthPx, heightPx, pixelUm: 25_400 / dpi, bands: bands() }
if (format === 'tiff') {
  await writeBilevelTiff(film, { sink })
} else {
  const [widthMm, heightMm] = [widthPx, heightPx].map((px) => (px * 25.4) / dpi)
  const items = [{ kind: 'bitmap', film, xMm: 0, yMm: 0 }]
  await writeFilmPdf([{ widthMm, heightMm, items }], { sink, deflater: deflater() })
}
closeSync(target)
const cpuSec = seconds(process.cpuUsage())
process.stdout.write(JSON.stringify({ cpuSec, startSec: seconds(begun), peakMb: peakMb() }))
