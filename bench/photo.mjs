// A photo of 24 million pixels read to a density map, against the general-purpose vision library on
// the part of that work which it has too: decode, find the targets, lay flat, a table. Each in a
// process of its own, in CPU seconds; both load the same decoder and the same library.
import { spawnSync } from 'node:child_process'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { matPhoto, PHOTO } from './photoCase.mjs'

const CHILD = fileURLToPath(new URL('./photoChild.mjs', import.meta.url))

export async function photoBench({ pairs = 5, report }) {
  const folder = mkdtempSync(join(tmpdir(), 'yellowroom-bench-'))
  try {
    const path = join(folder, 'mat.jpg')
    await matPhoto(path)
    const rounds = []
    for (let pair = 0; pair < pairs; pair += 1) {
      const ours = run(path, 'ours')
      if (!ours.wedge) throw new Error('the wedge was not found')
      const library = run(path, 'library', `${ours.widthPx}x${ours.heightPx}`)
      rounds.push({ ours, library, first: run(path, 'first picture') })
    }
    const middle = (of) => median(rounds.map(of))
    const row = {
      cpuSec: middle(({ ours }) => ours.cpuSec),
      libraryCpuSec: middle(({ library }) => library.cpuSec),
      ratio: middle(({ ours, library }) => library.cpuSec / ours.cpuSec),
      firstCpuSec: middle(({ first }) => first.cpuSec),
      peakMb: Math.max(...rounds.map(({ ours }) => ours.peakMb)),
      libraryPeakMb: Math.max(...rounds.map(({ library }) => library.peakMb)),
    }
    const mpx = (PHOTO.widthPx * PHOTO.heightPx) / 1e6
    report(
      `photo of ${mpx.toFixed(0)} Mpx read by its mat: ${row.cpuSec.toFixed(2)} CPU seconds, ` +
        `peak ${row.peakMb.toFixed(0)} MB; the vision library's decode, targets, warp and table ` +
        `${row.libraryCpuSec.toFixed(2)}, peak ${row.libraryPeakMb.toFixed(0)} MB; ratio ${row.ratio.toFixed(2)}`,
    )
    report(`photo, the first picture on the page: ${row.firstCpuSec.toFixed(2)} CPU seconds`)
    return row
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
}

function run(...args) {
  const { stdout, stderr, status } = spawnSync(process.execPath, [CHILD, ...args], {
    encoding: 'utf8',
  })
  if (status !== 0) throw new Error(stderr)
  return JSON.parse(stdout)
}

function median(values) {
  const sorted = [...values].sort((a, b) => a - b)
  return sorted[Math.floor(sorted.length / 2)]
}
