import { type FileHandle, open, stat } from 'node:fs/promises'
import { Failure } from '../core/failure.ts'
import type { ByteSource } from '../formats/bytes.ts'
import { type FileKind, fileKind, HEAD_BYTES } from '../formats/fileKind.ts'
import { MOST_FILE_BYTES } from './filmLimits.ts'
import { named, systemCode } from './named.ts'

export type PictureKind = 'png' | 'jpeg' | 'webp' | 'tiff'

type NoPicture = Exclude<FileKind, PictureKind>

const SAVE_AS = 'save it as PNG, TIFF or JPEG'
const NO_PICTURE: Readonly<Record<NoPicture, string>> = {
  empty: 'is empty; copy or export it again',
  pdf: 'is a PDF and no picture; export the page as PNG or TIFF',
  zip: 'is a zip or office file; give a picture: PNG, TIFF, JPEG or WebP',
  svg: 'is a drawing (SVG) and no film picture; export it as PNG at its true size',
  heic: `is a HEIC or AVIF photo, which cannot be read; ${SAVE_AS}`,
  gif: `is a GIF, which cannot be read; ${SAVE_AS}`,
  text: 'is a text; give a picture: PNG, TIFF, JPEG or WebP',
  unknown: 'is no picture that can be read; give a PNG, TIFF, JPEG or WebP',
}

/** Which kinds are read, and what is said of the others. */
export type Accepted<Kind extends FileKind> = Readonly<{
  kinds: readonly Kind[]
  refusals: Readonly<Record<Exclude<FileKind, Kind>, string>>
  /** What to give in place of a device or a pipe: 'a PNG, TIFF, JPEG or WebP'. */
  wanted: string
}>

const { pdf: _page, ...NO_FILM } = NO_PICTURE

/** What a film may be: a picture, or a page of ours. */
export const FILMS: Accepted<PictureKind | 'pdf'> = {
  kinds: ['png', 'jpeg', 'webp', 'tiff', 'pdf'],
  refusals: NO_FILM,
  wanted: 'a PNG, TIFF, JPEG or WebP',
}

const PICTURES: Accepted<PictureKind> = {
  kinds: ['png', 'jpeg', 'webp', 'tiff'],
  refusals: NO_PICTURE,
  wanted: 'a PNG, TIFF, JPEG or WebP',
}

type Use<Kind, Result> = (file: Readonly<{ kind: Kind; source: ByteSource }>) => Promise<Result>

/**
 * Opens a picture file for as long as `use` runs: a plain file, of a kind we read, not too long.
 *
 * @throws Failure 'missing file', 'unreadable file', 'too large' or 'world failed'
 */
export async function withSourceFile<Result>(
  path: string,
  use: Use<PictureKind, Result>,
): Promise<Result> {
  return withFileOfKind(path, PICTURES, use)
}

/** As `withSourceFile`, for the kinds that are accepted. */
export async function withFileOfKind<Kind extends FileKind, Result>(
  path: string,
  { kinds, refusals, wanted }: Accepted<Kind>,
  use: Use<Kind, Result>,
): Promise<Result> {
  const status = await stat(path).catch(refusedBy(path))
  if (status.isDirectory()) {
    throw unreadable(path, 'is a folder; name the picture file in it')
  }
  if (!status.isFile()) throw unreadable(path, `is no plain file; give ${wanted}`)
  const file = await open(path, 'r').catch(refusedBy(path))
  try {
    const source = sourceFrom(file, { path, sizeBytes: status.size })
    const found = fileKind(await source.read(0, HEAD_BYTES))
    const kind = kinds.find((known) => known === found)
    if (kind === undefined) {
      throw unreadable(path, refusals[found as Exclude<FileKind, Kind>])
    }
    const most = kind === 'tiff' ? MOST_FILE_BYTES.tiff : MOST_FILE_BYTES.other
    if (status.size > most) {
      const message = `${named(path)} has ${mb(status.size)} MB and ${mb(most)} MB is the most; `
      throw new Failure('too large', `${message}save it with compression or in parts.`)
    }
    return await use({ kind, source })
  } finally {
    await file.close()
  }
}

/** A sentence of the usual shape: the file, what it is, what to do. */
export function unreadable(path: string, what: string, cause?: unknown): Failure {
  return new Failure('unreadable file', `${named(path)} ${what}.`, { cause })
}

function sourceFrom(
  file: FileHandle,
  { path, sizeBytes }: Readonly<{ path: string; sizeBytes: number }>,
): ByteSource {
  return {
    sizeBytes,
    read: async (offset, length) => {
      if (!Number.isSafeInteger(offset) || offset >= sizeBytes) return new Uint8Array(0)
      const bytes = new Uint8Array(Math.min(length, sizeBytes - offset))
      const { bytesRead } = await file.read(bytes, 0, bytes.length, offset).catch(refusedBy(path))
      return bytes.subarray(0, bytesRead)
    },
  }
}

function refusedBy(path: string): (cause: unknown) => never {
  return (cause) => {
    const code = systemCode(cause)
    if (code === 'ENOENT' || code === 'ENOTDIR' || code === 'ENAMETOOLONG') {
      const message = `There is no file ${named(path)}; check its name and folder.`
      throw new Failure('missing file', message, { cause })
    }
    if (code === 'EACCES' || code === 'EPERM') {
      throw unreadable(path, 'may not be read by you; change its permissions or copy it', cause)
    }
    const message = `The disk failed while reading ${named(path)} (${code || 'no reason given'})`
    throw new Failure('world failed', `${message}; copy the file to another disk.`, { cause })
  }
}

function mb(bytes: number): string {
  return (bytes / 2 ** 20).toFixed(0)
}
