// Leak map against SciPy's oaconvolve on the same picture and kernel, in CPU seconds of one thread.
// SciPy's clock counts the folding of an array of floats that is already there, and no more. Ours
// is read twice: for the same work, from samples in memory to the 16-bit map (making the spread's
// kernel and compiling the code included), and for the whole of a forecast's first step, from the
// start of Node through the file's Group 4 to the map.
import { spawnSync } from 'node:child_process'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import sharp from 'sharp'
import { spreadKernel } from '../dist/raster/spreadKernel.js'
import { FILMS } from './films.mjs'
import { DPI, SPREAD } from './leakMapCase.mjs'

const A3 = { widthPx: 11_906, heightPx: 8_419 }
const here = (name) => fileURLToPath(new URL(name, import.meta.url))

export async function leakMapBench({ pairs = 5, report }) {
  const folder = mkdtempSync(join(tmpdir(), 'yellowroom-bench-'))
  try {
    const scipy = findScipy()
    if (scipy === null)
      report('SciPy is not installed: the ratio is missing (Debian: python3-scipy).')
    const { reachPx, weights } = spreadKernel(SPREAD, { pixelUm: 25_400 / DPI })
    const kernel = join(folder, 'kernel.f32')
    writeFileSync(kernel, new Uint8Array(Float32Array.from(weights).buffer))
    const results = []
    for (const name of ['line', 'dot']) {
      const film = await makeFilm(name, A3, folder)
      const [ours, alone, theirs] = [[], [], []]
      for (let pair = 0; pair < pairs; pair += 1) {
        ours.push(runOurs(film.tiff))
        alone.push(runAlone(film).cpuSec)
        if (scipy !== null) theirs.push(runScipy(scipy, film, { kernel, side: 2 * reachPx + 1 }))
      }
      const mpx = (A3.widthPx * A3.heightPx) / 1e6
      const own = median(ours.map(({ cpuSec }) => cpuSec))
      const ratioTo = (own) =>
        theirs.length === 0 ? null : median(theirs.map((seconds, at) => seconds / own[at]))
      const row = {
        film: name,
        edgeBlocks: film.edgeBlocks,
        mpxPerCpuSec: mpx / own,
        aloneMpxPerCpuSec: mpx / median(alone),
        scipyMpxPerCpuSec: theirs.length === 0 ? null : mpx / median(theirs),
        ratio: ratioTo(alone),
        ratioFromFile: ratioTo(ours.map(({ cpuSec }) => cpuSec)),
        peakMb: Math.max(...ours.map(({ peakMb }) => peakMb)),
      }
      results.push(row)
      report(
        `leak map, ${name} film of ${mpx.toFixed(0)} Mpx (${(100 * film.edgeBlocks).toFixed(0)} % of blocks hold an edge): ` +
          `folding alone ${row.aloneMpxPerCpuSec.toFixed(1)} Mpx per CPU second` +
          (row.ratio === null
            ? ''
            : `, SciPy ${row.scipyMpxPerCpuSec.toFixed(1)}, ratio ${row.ratio.toFixed(2)}`) +
          `; from the file, Node's start included, ${row.mpxPerCpuSec.toFixed(1)}` +
          (row.ratio === null ? '' : `, ratio ${row.ratioFromFile.toFixed(2)}`) +
          `, peak ${row.peakMb.toFixed(0)} MB`,
      )
    }
    return results
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
}

/** Linear growth: 25 to 200 Mpx of dots, the same width, more and more rows. */
export async function growthBench({ report }) {
  const folder = mkdtempSync(join(tmpdir(), 'yellowroom-bench-'))
  try {
    const results = []
    for (const mpx of [25, 50, 100, 200]) {
      const size = { widthPx: A3.widthPx, heightPx: Math.round((mpx * 1e6) / A3.widthPx) }
      const film = await makeFilm('dot', size, folder)
      const { cpuSec, peakMb } = runOurs(film.tiff)
      results.push({ mpx, cpuSec, peakMb })
      report(
        `leak map, ${mpx} Mpx of dots: ${cpuSec.toFixed(2)} CPU seconds, ` +
          `${((cpuSec / mpx) * 1000).toFixed(1)} ns a pixel, peak ${peakMb.toFixed(0)} MB`,
      )
    }
    const blank = await makeFilm('blank', A3, folder)
    const { cpuSec } = runOurs(blank.tiff)
    report(`leak map, blank film of 100 Mpx: ${cpuSec.toFixed(2)} CPU seconds`)
    return results
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
}

async function makeFilm(name, { widthPx, heightPx }, folder) {
  const draw = FILMS[name]({ widthPx, heightPx, dpi: DPI })
  const pixels = Buffer.alloc(widthPx * heightPx)
  for (let y = 0; y < heightPx; y += 1) draw(y, pixels.subarray(y * widthPx, (y + 1) * widthPx))
  const edgeBlocks = blocksWithEdge(pixels, widthPx, heightPx)
  const raw = join(folder, `${name}.u8`)
  writeFileSync(raw, pixels)
  for (let at = 0; at < pixels.length; at += 1) pixels[at] = pixels[at] === 1 ? 0 : 255
  const tiff = join(folder, `${name}.tif`)
  await sharp(pixels, {
    raw: { width: widthPx, height: heightPx, channels: 1 },
    limitInputPixels: false,
  })
    .toColourspace('b-w')
    .tiff({ compression: 'ccittfax4', bitdepth: 1, xres: DPI / 25.4, yres: DPI / 25.4 })
    .toFile(tiff)
  return { raw, tiff, widthPx, heightPx, edgeBlocks }
}

function blocksWithEdge(pixels, widthPx, heightPx) {
  let [edge, all] = [0, 0]
  for (let top = 0; top + 32 <= heightPx; top += 32) {
    for (let left = 0; left + 32 <= widthPx; left += 32) {
      let sum = 0
      for (let y = top; y < top + 32; y += 1) {
        for (let x = left; x < left + 32; x += 1) sum += pixels[y * widthPx + x]
      }
      all += 1
      if (sum > 0 && sum < 1024) edge += 1
    }
  }
  return edge / all
}

function runOurs(tiff) {
  return runChild([tiff])
}

function runAlone({ raw, widthPx, heightPx }) {
  return runChild([raw, `${widthPx}`, `${heightPx}`])
}

function runChild(args) {
  const { stdout, stderr, status } = spawnSync(
    process.execPath,
    [here('./leakMapChild.mjs'), ...args],
    { encoding: 'utf8' },
  )
  if (status !== 0) throw new Error(stderr)
  return JSON.parse(stdout)
}

function runScipy(python, { raw, widthPx, heightPx }, { kernel, side }) {
  const args = [here('./scipy_oaconvolve.py'), raw, `${widthPx}`, `${heightPx}`, kernel, `${side}`]
  const env = { ...process.env, OPENBLAS_NUM_THREADS: '1', OMP_NUM_THREADS: '1' }
  const { stdout, stderr, status } = spawnSync(python, args, { encoding: 'utf8', env })
  if (status !== 0) throw new Error(stderr)
  return Number(stdout)
}

function findScipy() {
  const pythons = ['/usr/bin/python3', 'python3']
  return (
    pythons.find((python) => spawnSync(python, ['-c', 'import scipy.signal']).status === 0) ?? null
  )
}

function median(values) {
  const sorted = [...values].sort((a, b) => a - b)
  return sorted[Math.floor(sorted.length / 2)]
}
