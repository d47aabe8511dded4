// A photo of 24 million pixels of a screen held to its film, against the general-purpose vision
// library on the part of that work which it has too: decode both, lay the photo over the film (told
// where it lies), its light by a wide blur, differences past a limit, freed of specks, put together.
// Each in a process of its own, in CPU seconds.
import { spawnSync } from 'node:child_process'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { SCREEN, screenPhoto } from './screenCase.mjs'

const CHILD = fileURLToPath(new URL('./screenChild.mjs', import.meta.url))

export async function screenBench({ pairs = 5, report }) {
  const folder = mkdtempSync(join(tmpdir(), 'yellowroom-bench-'))
  try {
    const [filmPath, photoPath] = [join(folder, 'film.png'), join(folder, 'screen.jpg')]
    await screenPhoto({ filmPath, photoPath })
    const rounds = []
    for (let pair = 0; pair < pairs; pair += 1) {
      const ours = run(photoPath, filmPath, 'ours')
      if (ours.findings === 0) throw new Error('none of the faults was found')
      rounds.push({ ours, library: run(photoPath, filmPath, 'library') })
    }
    const middle = (of) => median(rounds.map(of))
    const row = {
      cpuSec: middle(({ ours }) => ours.cpuSec),
      libraryCpuSec: middle(({ library }) => library.cpuSec),
      ratio: middle(({ ours, library }) => library.cpuSec / ours.cpuSec),
      peakMb: Math.max(...rounds.map(({ ours }) => ours.peakMb)),
      libraryPeakMb: Math.max(...rounds.map(({ library }) => library.peakMb)),
    }
    const mpx = (SCREEN.widthPx * SCREEN.heightPx) / 1e6
    report(
      `screen photo of ${mpx.toFixed(0)} Mpx held to its film: ${row.cpuSec.toFixed(2)} CPU seconds, ` +
        `peak ${row.peakMb.toFixed(0)} MB; the vision library's decode, warp, differences and components ` +
        `(told how the photo lies) ${row.libraryCpuSec.toFixed(2)}, peak ${row.libraryPeakMb.toFixed(0)} MB; ` +
        `ratio ${row.ratio.toFixed(2)}`,
    )
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
