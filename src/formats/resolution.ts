import type { ByteSource } from './bytes.ts'
import { readDirectory } from './directory.ts'
import { fileKind } from './fileKind.ts'

/** Pixels in a millimetre as the file states them, nothing rounded. */
export type Resolution = Readonly<{ horizontalPerMm: number; verticalPerMm: number }>

const MM_PER_INCH = 25.4
const MM_PER_CM = 10
const MM_PER_METRE = 1000

/** A damaged or hostile file is followed no further than this many parts. */
const MOST_PARTS = 5000

/**
 * The true size that a PNG, JPEG, WebP or TIFF states.
 *
 * PNG: pHYs, else eXIf. JPEG: EXIF, else JFIF (an EXIF block is the younger where a picture has
 * both, and readers prefer it). WebP: EXIF. TIFF and BigTIFF: the first directory.
 *
 * @returns null where the file states no unit, an aspect only, nonsense, or is no such picture
 * @source png3 (11.3.4.3 pHYs), jfif102, exif23 (4.6.4), tiff6 (section 8), webp-riff
 */
export async function readResolution(source: ByteSource): Promise<Resolution | null> {
  const kind = fileKind(await source.read(0, 16))
  if (kind === 'png') return pngResolution(source)
  if (kind === 'jpeg') return jpegResolution(source)
  if (kind === 'webp') return webpResolution(source)
  if (kind === 'tiff') return directoryResolution(source, 0)
  return null
}

async function pngResolution(source: ByteSource): Promise<Resolution | null> {
  let exif: Resolution | null = null
  let at = 8
  for (let part = 0; part < MOST_PARTS; part++) {
    const head = await source.read(at, 17)
    if (head.length < 8) return exif
    const type = latin(head, 4, 8)
    if (type === 'pHYs' && head.length === 17) {
      const unit = (await source.read(at + 16, 1))[0]
      return unit === 1 ? stated(uint32(head, 8), uint32(head, 12), MM_PER_METRE) : exif
    }
    if (type === 'eXIf') exif = await directoryResolution(source, at + 8)
    if (type === 'IEND') return exif
    at += 12 + uint32(head, 0)
  }
  return exif
}

async function jpegResolution(source: ByteSource): Promise<Resolution | null> {
  let jfif: Resolution | null = null
  let exif: Resolution | null = null
  let at = 2
  for (let part = 0; part < MOST_PARTS; part++) {
    const head = await source.read(at, 18)
    if (head.length < 4 || head[0] !== 0xff) break
    const marker = head[1] ?? 0
    if (marker === 0xff) {
      at += 1 // a fill byte before the marker
      continue
    }
    if (marker === 0xda || marker === 0xd9) break
    if (marker === 0xe0 && latin(head, 4, 9) === 'JFIF\0') {
      const mm = { 1: MM_PER_INCH, 2: MM_PER_CM }[head[11] ?? 0]
      if (mm !== undefined) jfif = stated(uint16(head, 12), uint16(head, 14), mm)
    }
    if (marker === 0xe1 && latin(head, 4, 10) === 'Exif\0\0') {
      exif ??= await directoryResolution(source, at + 10)
    }
    at += 2 + uint16(head, 2)
  }
  return exif ?? jfif
}

async function webpResolution(source: ByteSource): Promise<Resolution | null> {
  let at = 12
  for (let part = 0; part < MOST_PARTS; part++) {
    const head = await source.read(at, 14)
    if (head.length < 8) return null
    if (latin(head, 0, 4) === 'EXIF') {
      const marked = latin(head, 8, 14) === 'Exif\0\0'
      return directoryResolution(source, at + (marked ? 14 : 8))
    }
    const length = uint32(head, 4, true)
    at += 8 + length + (length % 2)
  }
  return null
}

const X_RESOLUTION = 282
const Y_RESOLUTION = 283
const RESOLUTION_UNIT = 296

async function directoryResolution(source: ByteSource, base: number): Promise<Resolution | null> {
  const tags = [X_RESOLUTION, Y_RESOLUTION, RESOLUTION_UNIT]
  const found = await readDirectory(source, { tags, base })
  const unit = found?.get(RESOLUTION_UNIT)?.[0] ?? 2 // inch unless stated
  const mm = { 2: MM_PER_INCH, 3: MM_PER_CM }[unit]
  if (mm === undefined) return null
  return stated(found?.get(X_RESOLUTION)?.[0], found?.get(Y_RESOLUTION)?.[0], mm)
}

function stated(
  horizontal: number | undefined,
  vertical: number | undefined,
  mm: number,
): Resolution | null {
  const counts = (value: number | undefined): value is number =>
    value !== undefined && value > 0 && Number.isFinite(value)
  if (!counts(horizontal) || !counts(vertical)) return null
  return { horizontalPerMm: horizontal / mm, verticalPerMm: vertical / mm }
}

function latin(bytes: Uint8Array, from: number, to: number): string {
  return String.fromCharCode(...bytes.subarray(from, to))
}

function uint16(bytes: Uint8Array, at: number): number {
  return ((bytes[at] ?? 0) << 8) | (bytes[at + 1] ?? 0)
}

function uint32(bytes: Uint8Array, at: number, little = false): number {
  const high = little ? uint16Little(bytes, at + 2) : uint16(bytes, at)
  const low = little ? uint16Little(bytes, at) : uint16(bytes, at + 2)
  return high * 0x10000 + low
}

function uint16Little(bytes: Uint8Array, at: number): number {
  return ((bytes[at + 1] ?? 0) << 8) | (bytes[at] ?? 0)
}
