import { mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll } from 'vitest'
import type { Film } from '../raster/film.ts'

export type Temporary = Readonly<{
  path: (name: string) => string
  put: (name: string, bytes: string | Uint8Array) => string
  /** What stands in the system's temporary folder, which is ours for the length of the suite. */
  leftovers: () => readonly string[]
}>

/** A folder of the suite's own, and one that the code under test takes for the temporary folder. */
export function temporary(): Temporary {
  const root = mkdtempSync(join(tmpdir(), 'yellowroom-test-'))
  const spare = mkdtempSync(join(root, 'spare-'))
  const before = process.env['TMPDIR']
  beforeAll(() => {
    process.env['TMPDIR'] = spare
  })
  afterAll(() => {
    if (before === undefined) delete process.env['TMPDIR']
    else process.env['TMPDIR'] = before
    rmSync(root, { recursive: true, force: true })
  })
  const path = (name: string): string => join(root, name)
  return {
    path,
    put: (name, bytes) => {
      writeFileSync(path(name), bytes)
      return path(name)
    },
    leftovers: () => readdirSync(spare),
  }
}

/** All samples of a film, band after band, as they come. */
export async function samplesOf(film: Film): Promise<number[]> {
  const all: number[] = []
  for await (const { top, rows, samples } of film.bands()) {
    if (top * film.widthPx !== all.length || samples.length !== rows * film.widthPx) {
      throw new Error(`band at ${top} has ${rows} rows and ${samples.length} samples`)
    }
    for (const sample of samples) all.push(sample)
  }
  return all
}

/** All transmissions of a coded film. */
export async function transmissionsOf(film: Film): Promise<number[]> {
  return (await samplesOf(film)).map((sample) => film.transmissionOf?.[sample] ?? Number.NaN)
}
