import { readFile } from 'node:fs/promises'
import { createRequire } from 'node:module'
import { fileURLToPath } from 'node:url'

/** A file that browsers may fetch: where it lies and what it is. */
type ServedFile = Readonly<{ place: string; type: string }>

const require = createRequire(import.meta.url)
const web = (name: string): string =>
  fileURLToPath(new URL(`../../src/web/${name}`, import.meta.url))
const font = (file: string): ServedFile => ({
  place: require.resolve(`@fontsource-variable/${file}-latin-wght-normal.woff2`),
  type: 'font/woff2',
})

/** The picture on the first page, made by our own forecast. */
export const PICTURE = '/forecast.png'

/** Every file by its address; nothing else is read from the disk for a browser. */
const FILES: Readonly<Record<string, ServedFile>> = {
  '/tokens.css': { place: web('tokens.css'), type: 'text/css; charset=utf-8' },
  '/page.css': { place: web('page.css'), type: 'text/css; charset=utf-8' },
  '/mark.svg': { place: web('mark.svg'), type: 'image/svg+xml' },
  [PICTURE]: { place: web('forecast.png'), type: 'image/png' },
  '/fonts/stencil.woff2': font('stick-no-bills/files/stick-no-bills'),
  '/fonts/plain.woff2': font('atkinson-hyperlegible-next/files/atkinson-hyperlegible-next'),
}

export const SERVED: readonly string[] = Object.keys(FILES)

/** The file's bytes and kind; null for an address that is none of ours, or not there. */
export async function servedFile(
  address: string,
): Promise<Readonly<{ bytes: Uint8Array<ArrayBuffer>; type: string }> | null> {
  const file = Object.hasOwn(FILES, address) ? FILES[address] : undefined
  if (file === undefined) return null
  const bytes = await readFile(file.place).catch(() => null)
  return bytes === null ? null : { bytes: new Uint8Array(bytes), type: file.type }
}

/**
 * Sides of a PNG in pixels, from its header.
 *
 * @source png3 (11.2.1 IHDR)
 */
export function pngSides(bytes: Uint8Array): Readonly<{ widthPx: number; heightPx: number }> {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)
  return { widthPx: view.getUint32(16), heightPx: view.getUint32(20) }
}
