import { type FileHandle, mkdtemp, open, stat, statfs } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { setTimeout as sleep } from 'node:timers/promises'
import type { OutputInfo } from 'sharp'
import { Failure } from '../core/failure.ts'
import { rememberLeftover, removeLeftover } from './leftovers.ts'
import { named, systemCode } from './named.ts'
import { sharp } from './pixelLibrary.ts'
import { type PictureKind, unreadable } from './sourceFile.ts'

export type SampleType = '8 bit' | '16 bit' | 'float'

/** One channel of plain samples in a temporary file, rows as they are stored. */
export type Unpacked = Readonly<{
  widthPx: number
  heightPx: number
  sampleType: SampleType
  /** Fills `into` with rows or parts of rows, counted in samples from the top left. */
  read: (into: SampleArray, firstSample: number) => Promise<void>
  close: () => Promise<void>
}>

export type SampleArray = Uint8Array | Uint16Array | Float32Array

export const SAMPLE_BYTES: Readonly<Record<SampleType, 1 | 2 | 4>> = {
  '8 bit': 1,
  '16 bit': 2,
  float: 4,
}

/** The decoder's plain format: 64 bytes of head, then rows of samples as the machine keeps them. */
const HEAD_BYTES = 64

export const DAMAGED: string =
  'is damaged, cut off before its end or of a rare kind; copy it again or export it as a grey ' +
  'PNG or TIFF'

/**
 * Decodes the first page of a picture to one channel in a temporary file, a few rows at a time.
 * Alpha is laid on white, colour is turned to its lightness, profiles are ignored.
 *
 * @param ahead answers as soon as the first rows can be read; reading waits for the others, and what
 *   is wrong further down is thrown there, at the last row at the latest
 * @throws Failure 'unreadable file' for a damaged picture, 'world failed' where there is no room
 */
export async function unpack(
  path: string,
  picture: Readonly<{
    kind: PictureKind
    widthPx: number
    heightPx: number
    sampleType: SampleType
    hasAlpha: boolean
    ahead: boolean
  }>,
): Promise<Unpacked> {
  const { widthPx, heightPx, sampleType, ahead } = picture
  const needBytes = HEAD_BYTES + widthPx * heightPx * SAMPLE_BYTES[sampleType]
  await expectRoom(path, needBytes)
  const folder = await mkdtemp(join(tmpdir(), 'yellowroom-film-')).catch(noRoom(path, needBytes))
  rememberLeftover(folder)
  try {
    const plain = join(folder, 'plain.v')
    const decoded = decode(path, { ...picture, plain, folder })
      .catch((cause: unknown) => {
        if (/no space|write failed|quota/i.test(String(cause))) noRoom(path, needBytes)(cause)
        throw unreadable(path, DAMAGED, cause)
      })
      .then(({ width, height, channels }) => {
        if (width === widthPx && height === heightPx && channels === 1) return
        const what = 'holds more than one channel of grey; export it as a grey PNG or TIFF'
        throw unreadable(path, what)
      })
    const growing = growingFile(plain, decoded)
    if (!ahead) await decoded
    await growing.reached(HEAD_BYTES)
    const file = await open(plain, 'r')
    // Where the system allows it the open file lives on without its name: nothing to clean up.
    const unnamed = decoded.catch(() => undefined).then(() => removeLeftover(folder))
    if (!ahead) await unnamed
    const close = async (): Promise<void> => {
      await unnamed
      await file.close()
      await removeLeftover(folder)
    }
    const { reached } = growing
    return await unpackedFrom(file, { widthPx, heightPx, sampleType, path, reached, close })
  } catch (error) {
    await removeLeftover(folder)
    throw error
  }
}

/** While a decoder writes. */
const LOOK_AGAIN_MS = 4

/** A file that the decoder writes front to back: waits until so much of it is there. */
function growingFile(
  plain: string,
  decoded: Promise<void>,
): Readonly<{ reached: (bytes: number) => Promise<void> }> {
  let isOver = false
  let size = 0
  const over = decoded.finally(() => {
    isOver = true
  })
  over.catch(() => undefined) // whoever reads is told
  return {
    reached: async (bytes) => {
      while (!isOver && size < bytes && Number.isFinite(bytes)) {
        await sleep(LOOK_AGAIN_MS)
        size = await stat(plain).then(
          (now) => now.size,
          () => 0, // not begun, or over meanwhile
        )
      }
      if (isOver || size < bytes) await over
    },
  }
}

async function decode(
  path: string,
  of: Readonly<{
    kind: PictureKind
    sampleType: SampleType
    hasAlpha: boolean
    folder: string
    plain: string
  }>,
): Promise<OutputInfo> {
  const options = {
    sequentialRead: true,
    limitInputPixels: false,
    ignoreIcc: true,
    // Sloppy but whole TIFFs earn warnings; in the others a warning is damage that went unsaid.
    failOn: of.kind === 'tiff' ? 'error' : 'warning',
  } as const
  const image = sharp(path, options)
  const space = of.sampleType === '16 bit' ? 'grey16' : 'b-w'
  if (!of.hasAlpha) return image.toColourspace(space).toFile(of.plain)
  if (of.sampleType !== '16 bit') {
    return image.flatten({ background: '#ffffff' }).toColourspace(space).toFile(of.plain)
  }
  // The library's white is 65280 of 65535 in 16 bits, its black is 0: lay the negative on black.
  const negative = join(of.folder, 'negative.v')
  await image.toColourspace(space).negate({ alpha: false }).toFile(negative)
  const opaque = sharp(negative, options).flatten({ background: '#000000' }).negate()
  return opaque.toColourspace(space).toFile(of.plain)
}

async function unpackedFrom(
  file: FileHandle,
  of: Readonly<{
    widthPx: number
    heightPx: number
    sampleType: SampleType
    path: string
    reached: (bytes: number) => Promise<void>
    close: () => Promise<void>
  }>,
): Promise<Unpacked> {
  const { widthPx, heightPx, sampleType, path, reached, close } = of
  const sampleBytes = SAMPLE_BYTES[sampleType]
  const wholeBytes = HEAD_BYTES + widthPx * heightPx * sampleBytes
  const readBytes = async (into: Uint8Array, offset: number): Promise<void> => {
    const end = offset + into.length
    // the last row is believed once the decoder has come to its end without a complaint
    await reached(end < wholeBytes ? end : Number.POSITIVE_INFINITY)
    for (let done = 0; done < into.length; ) {
      const { bytesRead } = await file.read(into, done, into.length - done, offset + done)
      if (bytesRead === 0) throw unreadable(path, DAMAGED)
      done += bytesRead
    }
  }
  const read = (into: SampleArray, firstSample: number): Promise<void> =>
    readBytes(
      new Uint8Array(into.buffer, into.byteOffset, into.byteLength),
      HEAD_BYTES + firstSample * sampleBytes,
    )
  try {
    const head = new Int32Array(HEAD_BYTES / 4)
    await readBytes(new Uint8Array(head.buffer), 0)
    // Words 1, 2, 3, 5 of the head: width, height, channels, sample format.
    const format = { '8 bit': 0, '16 bit': 2, float: 6 }[sampleType]
    const expected = [widthPx, heightPx, 1, format]
    if ([1, 2, 3, 5].some((word, index) => head[word] !== expected[index])) {
      await reached(Number.POSITIVE_INFINITY) // its own complaint says more
      throw unreadable(path, 'holds samples of a rare kind; export it as a grey PNG or TIFF')
    }
  } catch (error) {
    await close()
    throw error
  }
  return { widthPx, heightPx, sampleType, read, close }
}

async function expectRoom(path: string, needBytes: number): Promise<void> {
  const room = await statfs(tmpdir()).catch(() => null) // not every system tells
  if (room !== null && room.bavail * room.bsize < needBytes) noRoom(path, needBytes)(undefined)
}

function noRoom(path: string, needBytes: number): (cause: unknown) => never {
  return (cause) => {
    const code = systemCode(cause)
    const where = `the temporary folder ${named(tmpdir())}`
    const message =
      code === '' || code === 'ENOSPC'
        ? `${where} has no room for the ${Math.ceil(needBytes / 2 ** 20)} MB of it; make room`
        : `${where} refuses new files (${code}); set TMPDIR to another folder`
    throw new Failure('world failed', `Cannot unpack ${named(path)}: ${message}.`, { cause })
  }
}
