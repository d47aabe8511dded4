import { mkdtemp, readFile, writeFile } from 'node:fs/promises'
import { createRequire } from 'node:module'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { inflateSync } from 'node:zlib'
import { sfntFromWoff } from '../formats/woff.ts'
import { rememberLeftover } from './leftovers.ts'

export type FontName = 'text' | 'bold text' | 'signs'

const ATKINSON = '@fontsource/atkinson-hyperlegible-next/files'

/** The product's letters: what an SVG asks for by `family` and `weight`. */
export const FONTS: Readonly<
  Record<FontName, Readonly<{ family: string; weight: number; file: string }>>
> = {
  text: {
    family: 'Atkinson Hyperlegible Next',
    weight: 400,
    file: `${ATKINSON}/atkinson-hyperlegible-next-latin-400-normal.woff`,
  },
  'bold text': {
    family: 'Atkinson Hyperlegible Next',
    weight: 700,
    file: `${ATKINSON}/atkinson-hyperlegible-next-latin-700-normal.woff`,
  },
  signs: {
    family: 'Stick No Bills',
    weight: 600,
    file: '@fontsource/stick-no-bills/files/stick-no-bills-latin-600-normal.woff',
  },
}

const unpacked = new Map<FontName, Promise<string>>()
let folder: Promise<string> | null = null

/** Plain font files for the drawing library, which takes paths; unpacked once a process. */
export async function fontFiles(names: readonly FontName[]): Promise<readonly string[]> {
  return Promise.all(
    names.map((name) => {
      const file = unpacked.get(name) ?? unpackFont(name)
      unpacked.set(name, file)
      return file
    }),
  )
}

async function unpackFont(name: FontName): Promise<string> {
  folder ??= mkdtemp(join(tmpdir(), 'yellowroom-fonts-'))
  const place = await folder
  rememberLeftover(place)
  const woff = await readFile(createRequire(import.meta.url).resolve(FONTS[name].file))
  const path = join(place, `${name.replace(' ', '-')}.ttf`)
  await writeFile(path, underFamily(sfntFromWoff(woff, inflateSync), FONTS[name].family))
  return path
}

const FAMILY_NAME = 1
const WINDOWS = 3

/**
 * One family for all its weights, as pages know it: files of single weights call themselves
 * "Family SemiBold". The name is a beginning of theirs, so only its length changes.
 *
 * @source opentype (the name table)
 */
function underFamily(sfnt: Uint8Array, family: string): Uint8Array {
  const view = new DataView(sfnt.buffer, sfnt.byteOffset, sfnt.byteLength)
  for (let index = 0; index < view.getUint16(4); index++) {
    if (view.getUint32(12 + 16 * index) !== 0x6e616d65) continue // name
    const table = view.getUint32(20 + 16 * index)
    for (let record = 0; record < view.getUint16(table + 2); record++) {
      const at = table + 6 + 12 * record
      if (view.getUint16(at) !== WINDOWS || view.getUint16(at + 6) !== FAMILY_NAME) continue
      view.setUint16(at + 8, Math.min(view.getUint16(at + 8), 2 * family.length))
    }
  }
  return sfnt
}
