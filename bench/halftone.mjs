// Halftoning a photograph of 300 pixels an inch onto a film of A3 at 1440 dpi, against general-purpose
// tools on the same picture: dots of any angle against a PostScript interpreter's plain bits of the same
// screen (it repeats pixels where we run evenly between them), the scattered mask against netpbm's ordered dither,
// which is given the tones at full size, and the whole way to a Group 4 film against the interpreter's.
// CPU seconds of one thread, ours with and without Node's start; the smaller film is the upper quarter.
import { spawnSync } from 'node:child_process'
import { createWriteStream, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'

const DPI = 1440
const SOURCE = { widthPx: 4961, heightPx: 3508 }
const FILM = { widthPx: 23_812, heightPx: 16_838, dpi: DPI }
const PARTS = [4, 1]
const RULING_PER_CM = 18
const DOTS = { kind: 'dot', shape: 'round', rulingPerCm: RULING_PER_CM, angleDeg: 22.5 }
const KINDS = [
  { name: 'dots', tool: 'gs pbmraw', halftone: DOTS, yardstick: postscriptTo('pbmraw') },
  {
    name: 'mask',
    tool: 'pgmtopbm -dither8',
    halftone: { kind: 'stochastic', seed: 7 },
    yardstick: ditherer,
  },
  {
    name: 'dots to film',
    tool: 'gs tiffg4',
    halftone: DOTS,
    yardstick: postscriptTo('tiffg4'),
    out: 'own.tif',
  },
]

export async function halftoneBench({ pairs = 5, report }) {
  const folder = mkdtempSync(join(tmpdir(), 'yellowroom-bench-'))
  try {
    const results = []
    for (const part of PARTS) {
      const source = { ...SOURCE, heightPx: Math.round(SOURCE.heightPx / part) }
      const film = { ...FILM, heightPx: Math.round(FILM.heightPx / part) }
      const path = join(folder, 'grey.raw')
      writeFileSync(path, photograph(source))
      for (const { name, tool, halftone, yardstick, out } of KINDS) {
        const theirs = await yardstick({ path, source, film, folder })
        if (theirs === null) report(`${tool} is not installed: its ratio is missing.`)
        const asked = { path, source, film, halftone, pairs }
        const result = compare(
          out === undefined ? asked : { ...asked, out: join(folder, out) },
          theirs,
        )
        results.push({ name, part, ...result })
        report(`Halftone, ${name}, ${sentence(result, tool)}`)
      }
    }
    const growth = growthOf(results)
    report(
      `Halftone, a film four times as high: ${growth.cpu.toFixed(2)} times the CPU without Node's start at most, ${growth.rss.toFixed(2)} times the memory.`,
    )
    return { results, growth }
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
}

/** From the upper quarter to the whole film, of the kind that grows most. */
function growthOf(results) {
  const pairs = results
    .filter(({ part }) => part === 1)
    .map((whole) => [whole, results.find(({ name, part }) => part > 1 && name === whole.name)])
  const cpuSec = ({ mpx, mpxPerCpuSecRunning }) => mpx / mpxPerCpuSecRunning
  return {
    cpu: Math.max(...pairs.map(([whole, quarter]) => cpuSec(whole) / cpuSec(quarter))),
    rss: Math.max(...pairs.map(([whole, quarter]) => whole.peakMb / quarter.peakMb)),
  }
}

function compare({ pairs, ...asked }, tool) {
  const { film } = asked
  const [ours, theirs] = [[], []]
  for (let pair = 0; pair < pairs; pair += 1) {
    ours.push(runOurs(asked))
    const other = tool?.() ?? null
    if (other !== null) theirs.push(other)
  }
  const startSec = median(ours.map((run) => run.startSec))
  const { out: _, ...bits } = asked
  const { blackShare, toneShare } = runOurs({ ...bits, isChecked: true })
  if (Math.abs(blackShare - toneShare) > 0.001) {
    throw new Error(`the film covers ${blackShare}, and ${toneShare} was asked for`)
  }
  const mpx = (film.widthPx * film.heightPx) / 1e6
  const own = median(ours.map(({ cpuSec }) => cpuSec))
  const other = theirs.length === 0 ? null : median(theirs)
  return {
    mpx,
    mpxPerCpuSec: mpx / own,
    mpxPerCpuSecRunning: mpx / (own - startSec),
    toolMpxPerCpuSec: other === null ? null : mpx / other,
    ratio: other === null ? null : median(theirs.map((sec, at) => sec / ours[at].cpuSec)),
    ratioRunning:
      other === null
        ? null
        : median(theirs.map((sec, at) => sec / (ours[at].cpuSec - ours[at].startSec))),
    peakMb: Math.max(...ours.map((run) => run.peakMb)),
  }
}

function sentence(of, tool) {
  const own = `${of.mpx.toFixed(0)} Mpx: ${of.mpxPerCpuSec.toFixed(0)} Mpx per CPU second (${of.mpxPerCpuSecRunning.toFixed(0)} without Node's start), peak ${of.peakMb.toFixed(0)} MB`
  return of.ratio === null
    ? own
    : `${own}; ${tool} ${of.toolMpxPerCpuSec.toFixed(0)}; ratio ${of.ratio.toFixed(2)}, ${of.ratioRunning.toFixed(2)} without the start`
}

/** Slow tones with a few edges in them, as a photograph has. */
function photograph({ widthPx, heightPx }) {
  const grey = new Uint8Array(widthPx * heightPx)
  for (let y = 0; y < heightPx; y += 1) {
    for (let x = 0; x < widthPx; x += 1) {
      const slow = 0.5 + 0.3 * Math.sin(x / 400 + y / 480) + 0.15 * Math.sin(x / 65 - y / 92)
      grey[y * widthPx + x] = 255 * (((x >> 8) + (y >> 8)) % 7 === 0 ? 1 - slow : slow)
    }
  }
  return grey
}

function runOurs(asked) {
  const child = fileURLToPath(new URL('./halftoneChild.mjs', import.meta.url))
  const { stdout, stderr, status } = spawnSync(process.execPath, [child, JSON.stringify(asked)], {
    encoding: 'utf8',
  })
  if (status !== 0) throw new Error(stderr)
  return JSON.parse(stdout)
}

/** Round dots of the same ruling and angle by a PostScript interpreter; null where there is none. */
function postscriptTo(device) {
  return ({ path, source, film, folder }) => {
    if (spawnSync('gs', ['--version']).error !== undefined) return null
    const points = [film.widthPx, film.heightPx].map((px) => (px * 72) / DPI)
    const program = join(folder, 'film.ps')
    writeFileSync(
      program,
      [
        `<< /PageSize [${points.join(' ')}] >> setpagedevice`,
        `${RULING_PER_CM * 2.54} 22.5 { dup mul exch dup mul add 1 exch sub } setscreen`,
        `${points.join(' ')} scale`,
        `/source (${path}) (r) file def`,
        `${source.widthPx} ${source.heightPx} 8 [${source.widthPx} 0 0 -${source.heightPx} 0 ${source.heightPx}] source image showpage`,
      ].join('\n'),
    )
    const out = join(folder, 'film.pbm')
    const options = ['-q', '-dBATCH', '-dNOPAUSE', '-dNOSAFER', `-sDEVICE=${device}`, `-r${DPI}`]
    return () => timed(['gs', ...options, `-sOutputFile=${out}`, program])
  }
}

/** Ordered dither of tones at full size; null where the tool is not installed. */
async function ditherer({ film, folder }) {
  if (spawnSync('pgmtopbm', ['-version']).error !== undefined) return null
  const full = join(folder, 'full.pgm')
  const file = createWriteStream(full)
  file.write(`P5\n${film.widthPx} ${film.heightPx}\n255\n`)
  const row = Buffer.alloc(film.widthPx)
  for (let y = 0; y < film.heightPx; y += 1) {
    for (let x = 0; x < film.widthPx; x += 1) row[x] = ((x >> 5) + (y >> 4)) & 255
    if (!file.write(Buffer.from(row))) await new Promise((go) => file.once('drain', go))
  }
  await new Promise((go) => file.end(go))
  const out = join(folder, 'dithered.pbm')
  return () => timed(['bash', '-c', `pgmtopbm -dither8 ${full} > ${out}`])
}

/** CPU seconds, which the shell tells of its child. */
function timed(command) {
  const script = 'TIMEFORMAT="%U %S"; time "$0" "$@"'
  const run = spawnSync('bash', ['-c', script, ...command], { encoding: 'utf8' })
  if (run.status !== 0) throw new Error(run.stderr)
  const [user, system] = run.stderr.trim().split('\n').at(-1).split(' ').map(Number)
  return user + system
}

function median(values) {
  const sorted = [...values].sort((a, b) => a - b)
  return sorted[Math.floor(sorted.length / 2)]
}
