// Group 4 against libtiff's own tool: plain 1-bit TIFF in, Group 4 TIFF out, file to file, strips of
// the same rows, both in CPU seconds of one thread. Two ratios: with the start of Node, which weighs on
// short work, and without it, as in a server that runs already. The films are A3 wide at
// 1440 dpi; the shorter is the upper quarter of the longer, and of dots there is one three times as high,
// which is the longer one again and again: 1.2 gigapixels.
import { spawnSync } from 'node:child_process'
import { closeSync, mkdtempSync, openSync, rmSync, statSync, writeSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { resolutionFields, tiffDirectory, tiffHead } from '../dist/formats/tiffParts.js'
import { FILMS, waveOf } from './films.mjs'

const TOOL = { copy: 'tiffcp', compare: 'tiffcmp' } // of Debian's libtiff-tools
const DPI = 1440
const WIDTH_PX = 23_812
const HEIGHTS_PX = [4_210, 16_838]
const TALLEST_PX = 50_514
const ROW_BYTES = Math.ceil(WIDTH_PX / 8)
const ROWS_EACH = Math.floor(2 ** 20 / ROW_BYTES)
const PLAIN_AT = 16

/** White noise under the dot film's slow tones: what Group 4 likes least. */
function noiseRow({ widthPx }) {
  let state = 1
  const slow = waveOf({ widthPx, rate: 1 / 1900 })
  return (y, row) => {
    const [sin, cos] = [0.3 * Math.sin(y / 2300), 0.3 * Math.cos(y / 2300)]
    for (let x = 0; x < widthPx; x += 1) {
      state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0
      const tone = 0.35 + (slow.sines[x] * cos + slow.cosines[x] * sin)
      row[x] = (state >>> 8) / 2 ** 24 < tone ? 1 : 0
    }
  }
}

const KINDS = { dot: FILMS.dot, line: FILMS.line, noise: noiseRow }

export async function group4Bench({ pairs = 5, report }) {
  const folder = mkdtempSync(join(tmpdir(), 'yellowroom-bench-'))
  try {
    const theirsHere = spawnSync(TOOL.copy, ['-h']).error === undefined
    if (!theirsHere)
      report('tiffcp is not installed: the ratio is missing (Debian: libtiff-tools).')
    const results = []
    for (const [kind, rowOf] of Object.entries(KINDS)) {
      const heightsPx = kind === 'dot' ? [...HEIGHTS_PX, TALLEST_PX] : HEIGHTS_PX
      const films = makeFilms(kind, { rowOf, heightsPx, folder })
      for (const film of films) {
        const result = compare(film, { folder, pairs, theirsHere })
        results.push({ film: kind, ...result })
        report(`Group 4, ${kind} film of ${sentence(result)}`)
        rmSync(film.path)
      }
    }
    const growth = growthOf(results)
    report(
      `Group 4, dot film four times as high: ${growth.cpu.toFixed(2)} times the CPU without Node's start, ${growth.rss.toFixed(2)} times the memory; three times that again: ${growth.tallestRss.toFixed(2)} times the memory.`,
    )
    return { results, growth }
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
}

/** From the shorter to the longer film of dots, and on to the tallest. */
function growthOf(results) {
  const [short, long, tallest] = results.filter(({ film }) => film === 'dot')
  const running = ({ cpuSec, startSec }) => cpuSec - startSec
  return {
    cpu: running(long) / running(short),
    rss: long.peakMb / short.peakMb,
    tallestRss: tallest.peakMb / long.peakMb,
  }
}

function compare(film, { folder, pairs, theirsHere }) {
  const [own, other] = [join(folder, 'own.tif'), join(folder, 'other.tif')]
  const [ours, theirs] = [[], []]
  for (let pair = 0; pair < pairs; pair += 1) {
    ours.push(runOurs(film, 'tiff', own))
    if (!theirsHere) continue
    theirs.push(runTiffcp(film, other))
    if (pair === 0) expectSame(film, own)
  }
  const pdf = runOurs(film, 'pdf', join(folder, 'own.pdf'))
  const mpx = (WIDTH_PX * film.heightPx) / 1e6
  const cpuSec = median(ours.map((run) => run.cpuSec))
  return {
    mpx,
    mpxPerCpuSec: mpx / cpuSec,
    tiffcpMpxPerCpuSec: theirsHere ? mpx / median(theirs) : null,
    ratio: theirsHere ? median(theirs.map((seconds, at) => seconds / ours[at].cpuSec)) : null,
    ratioWithoutStart: theirsHere
      ? median(theirs.map((seconds, at) => seconds / (ours[at].cpuSec - ours[at].startSec)))
      : null,
    cpuSec,
    startSec: median(ours.map((run) => run.startSec)),
    peakMb: Math.max(...ours.map((run) => run.peakMb)),
    sizeMb: statSync(own).size / 1e6,
    tiffcpSizeMb: theirsHere ? statSync(other).size / 1e6 : null,
    pdf: {
      ...pdf,
      mpxPerCpuSec: mpx / pdf.cpuSec,
      sizeMb: statSync(join(folder, 'own.pdf')).size / 1e6,
    },
  }
}

function sentence({
  mpx,
  mpxPerCpuSec,
  tiffcpMpxPerCpuSec,
  ratio,
  ratioWithoutStart,
  peakMb,
  sizeMb,
  tiffcpSizeMb,
  pdf,
}) {
  const own = `${mpx.toFixed(0)} Mpx: ${mpxPerCpuSec.toFixed(0)} Mpx per CPU second, peak ${peakMb.toFixed(0)} MB, ${sizeMb.toFixed(2)} MB long`
  const theirs =
    ratio === null
      ? ''
      : `; tiffcp ${tiffcpMpxPerCpuSec.toFixed(0)}, ${tiffcpSizeMb.toFixed(2)} MB; ratio ${ratio.toFixed(2)}, ${ratioWithoutStart.toFixed(2)} without Node's start`
  const asPdf = `; as PDF ${pdf.mpxPerCpuSec.toFixed(0)}, peak ${pdf.peakMb.toFixed(0)} MB, ${pdf.sizeMb.toFixed(2)} MB`
  return `${own}${theirs}${asPdf}`
}

/** Plain films, the shorter the upper part of the longer, in strips as ours have. */
function makeFilms(kind, { rowOf, heightsPx, folder }) {
  const drawn = Math.max(...HEIGHTS_PX)
  const draw = rowOf({ widthPx: WIDTH_PX, heightPx: drawn, dpi: DPI })
  const files = heightsPx.map((heightPx) => {
    const path = join(folder, `${kind}-${heightPx}.tif`)
    const file = openSync(path, 'w')
    writeSync(file, new Uint8Array(PLAIN_AT))
    return { heightPx, path, file, plainAt: PLAIN_AT, widthPx: WIDTH_PX, dpi: DPI }
  })
  const [row, packed] = [new Uint8Array(WIDTH_PX), new Uint8Array(ROW_BYTES)]
  for (let y = 0; y < drawn; y += 1) {
    draw(y, row)
    packed.fill(0)
    for (let x = 0; x < WIDTH_PX; x += 1) if (row[x] === 1) packed[x >> 3] |= 128 >> (x & 7)
    for (const { file, heightPx } of files) {
      for (let again = y; again < heightPx; again += drawn) {
        writeSync(file, packed, 0, ROW_BYTES, PLAIN_AT + again * ROW_BYTES)
      }
    }
  }
  for (const { file, heightPx } of files) {
    const bytes = ROW_BYTES * heightPx
    const directoryAt = PLAIN_AT + bytes + (bytes % 2)
    const parts = [
      [tiffHead({ big: false }, { directoryAt }), 0],
      [directoryOf(heightPx, directoryAt), directoryAt],
    ]
    for (const [part, at] of parts) writeSync(file, part, 0, part.length, at)
    closeSync(file)
  }
  return files
}

function directoryOf(heightPx, directoryAt) {
  const tops = Array.from({ length: Math.ceil(heightPx / ROWS_EACH) }, (_, at) => at * ROWS_EACH)
  const fields = [
    { tag: 256, type: 'long', values: [WIDTH_PX] },
    { tag: 257, type: 'long', values: [heightPx] },
    { tag: 258, type: 'short', values: [1] },
    { tag: 259, type: 'short', values: [1] },
    { tag: 262, type: 'short', values: [0] },
    { tag: 273, type: 'address', values: tops.map((top) => PLAIN_AT + ROW_BYTES * top) },
    { tag: 277, type: 'short', values: [1] },
    { tag: 278, type: 'long', values: [ROWS_EACH] },
    {
      tag: 279,
      type: 'address',
      values: tops.map((top) => ROW_BYTES * Math.min(ROWS_EACH, heightPx - top)),
    },
    ...resolutionFields({ pixelUm: 25_400 / DPI }),
  ]
  return tiffDirectory(fields, { big: false, directoryAt })
}

function runOurs(film, format, out) {
  const child = fileURLToPath(new URL('./group4Child.mjs', import.meta.url))
  const asked = JSON.stringify({ ...film, format, out })
  const { stdout, stderr, status } = spawnSync(process.execPath, [child, asked], {
    encoding: 'utf8',
  })
  if (status !== 0) throw new Error(stderr)
  return JSON.parse(stdout)
}

/** CPU seconds, which the shell tells of its child. */
function runTiffcp({ path }, out) {
  const script = 'TIMEFORMAT="%U %S"; time "$0" "$@"'
  const command = [TOOL.copy, '-c', 'g4', '-r', `${ROWS_EACH}`, path, out]
  const run = spawnSync('bash', ['-c', script, ...command], { encoding: 'utf8' })
  if (run.status !== 0) throw new Error(run.stderr)
  const [user, system] = run.stderr.trim().split('\n').at(-1).split(' ').map(Number)
  return user + system
}

/** Every row of ours decodes to the film's, by libtiff. */
function expectSame({ path }, own) {
  const { status, stdout, stderr } = spawnSync(TOOL.compare, ['-t', path, own], {
    encoding: 'utf8',
  })
  if (status !== 0)
    throw new Error(`libtiff decodes other rows than the film's: ${stdout}${stderr}`)
}

function median(values) {
  const sorted = [...values].sort((a, b) => a - b)
  return sorted[Math.floor(sorted.length / 2)]
}
