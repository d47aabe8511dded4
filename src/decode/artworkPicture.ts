import { type FileHandle, mkdtemp, open } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Metadata, Sharp } from 'sharp'
import { Failure } from '../core/failure.ts'
import type { ByteSource } from '../formats/bytes.ts'
import { readResolution } from '../formats/resolution.ts'
import { type Artwork, type ArtworkBand, SAMPLES } from '../raster/films/artwork.ts'
import type { FilmPixels, OpenedArtwork } from './artwork.ts'
import { MOST_PIXELS, MOST_PIXELS_WHOLE, MOST_SIDE_PX } from './filmLimits.ts'
import { rememberLeftover, removeLeftover } from './leftovers.ts'
import { named, systemCode } from './named.ts'
import { sharp } from './pixelLibrary.ts'
import { type PictureKind, unreadable } from './sourceFile.ts'

const DAMAGED =
  'is damaged, cut off before its end or of a rare kind; copy it again or export it as PNG or TIFF'

/** The decoder's plain format: 64 bytes of head, then rows of samples. */
const HEAD_BYTES = 64
const BAND_BYTES = 2 ** 20

/** A picture as artwork: by its colour profile to sRGB, or CMYK as it stands; clear parts on white. */
export async function openArtworkPicture(
  path: string,
  { kind, source }: Readonly<{ kind: PictureKind; source: ByteSource }>,
): Promise<OpenedArtwork> {
  const head = await sharp(path, { limitInputPixels: false, failOn: 'error' })
    .metadata()
    .catch((cause: unknown) => {
      throw unreadable(path, DAMAGED, cause)
    })
  expectTakable(path, head, kind)
  const stated = await readResolution(source)
  const { width, height } = head.autoOrient
  const turned = width !== head.width
  const [acrossPerMm, downPerMm] =
    stated === null
      ? [null, null]
      : turned
        ? [stated.verticalPerMm, stated.horizontalPerMm]
        : [stated.horizontalPerMm, stated.verticalPerMm]
  const isSquare = acrossPerMm === null || downPerMm === null
  const opened = new Set<() => Promise<void>>()
  return {
    proportion: isSquare ? width / height : width / acrossPerMm / (height / downPerMm),
    widthMm: acrossPerMm === null ? null : width / acrossPerMm,
    kind: 'picture',
    ownInks: [],
    statesCmyk: head.space === 'cmyk',
    warnings: warningsOf(path, head),
    samples: async (film) => {
      const space = head.space === 'cmyk' && film.keepsCmyk ? 'cmyk' : greyOrRgb(head)
      const plain = await decoded(path, { head, kind, space, film })
      opened.add(plain.close)
      return plain.artwork
    },
    close: async () => {
      for (const close of opened) await close()
    },
  }
}

function greyOrRgb({ space }: Metadata): 'grey' | 'rgb' {
  return space === 'b-w' || space === 'grey16' ? 'grey' : 'rgb'
}

function expectTakable(path: string, head: Metadata, kind: PictureKind): void {
  const { width, height, depth, space, channels } = head
  const whole = kind === 'webp' || head.isProgressive === true
  const most = whole ? MOST_PIXELS_WHOLE : MOST_PIXELS
  if (width * height > most || width > MOST_SIDE_PX || height > MOST_SIDE_PX) {
    const message = `${named(path)} has ${width} x ${height} pixels, and ${most / 1e6} million in all and ${MOST_SIDE_PX} a side are the most; save it smaller.`
    throw new Failure('too large', message)
  }
  const known = ['b-w', 'grey16', 'srgb', 'rgb', 'rgb16', 'cmyk']
  if ((depth !== 'uchar' && depth !== 'ushort') || !known.includes(space) || channels > 5) {
    throw unreadable(path, 'holds samples of a rare kind; save it as 8-bit grey, RGB or CMYK')
  }
}

function warningsOf(path: string, head: Metadata): readonly string[] {
  const isCmyk = head.space === 'cmyk'
  const isColour = greyOrRgb(head) === 'rgb' && !isCmyk
  const lies = profileOf(head) === 'of another kind'
  const warnings: readonly (readonly [boolean, string])[] = [
    [lies, 'holds a colour profile that does not fit it; it is read without.'],
    [isColour && !head.hasProfile, 'states no colour profile; its colours are taken as sRGB.'],
    [
      isCmyk && (lies || !head.hasProfile),
      'is CMYK without a profile; other than as those four inks its colours are estimates.',
    ],
    [(head.pages ?? 1) > 1, `holds ${head.pages} pictures; the first is used.`],
    [head.hasAlpha, 'is transparent in places or could be; it is laid on white.'],
  ]
  return warnings.filter(([holds]) => holds).map(([, words]) => `${named(path)} ${words}`)
}

/** The words by which a profile says of which colours it speaks, and where they stand in it. */
const SPEAKS_AT = 16
const SIGNED_AT = 36

/**
 * Whether a picture's profile speaks of colours such as the picture has.
 *
 * @source icc1
 */
function profileOf({ icc, space }: Metadata): 'none' | 'fits' | 'of another kind' {
  if (icc === undefined) return 'none'
  const word = (at: number): string => icc.toString('latin1', at, at + 4)
  const grey = space === 'b-w' || space === 'grey16'
  const wanted = space === 'cmyk' ? 'CMYK' : grey ? 'GRAY' : 'RGB '
  return word(SPEAKS_AT) === wanted && word(SIGNED_AT) === 'acsp' ? 'fits' : 'of another kind'
}

type Of = Readonly<{
  head: Metadata
  kind: PictureKind
  space: Artwork['space']
  film: FilmPixels
}>

/** Decodes into a temporary file, a few rows at a time, and no finer than the film. */
async function decoded(
  path: string,
  { head, kind, space, film }: Of,
): Promise<Readonly<{ artwork: Artwork; close: () => Promise<void> }>> {
  const { width, height } = head.autoOrient
  const [widthPx, heightPx] = [Math.min(width, film.widthPx), Math.min(height, film.heightPx)]
  const folder = await mkdtemp(join(tmpdir(), 'yellowroom-artwork-')).catch(noRoom(path))
  rememberLeftover(folder)
  try {
    const plain = join(folder, 'plain.v')
    const picture = prepared(path, { head, kind, space, size: { widthPx, heightPx } })
    const info = await picture.toFile(plain).catch((cause: unknown) => {
      if (/no space|write failed|quota/i.test(String(cause))) noRoom(path)(cause)
      throw unreadable(path, DAMAGED, cause)
    })
    if (info.channels !== SAMPLES[space] || info.width !== widthPx || info.height !== heightPx) {
      throw unreadable(path, 'holds samples of a rare kind; save it as 8-bit grey, RGB or CMYK')
    }
    const file = await open(plain, 'r')
    const close = async (): Promise<void> => {
      await file.close()
      await removeLeftover(folder)
    }
    await removeLeftover(folder) // where the system allows it, the open file lives on
    const row = widthPx * SAMPLES[space]
    // sixteen bits of ink stay sixteen; light has become eight
    const isDeep = space === 'cmyk' && head.depth === 'ushort'
    const bands = (): AsyncIterable<ArtworkBand> =>
      isDeep
        ? shallow(bandsOf(file, { path, row: 2 * row, rows: heightPx }))
        : bandsOf(file, { path, row, rows: heightPx })
    return { artwork: { space, widthPx, heightPx, bands }, close }
  } catch (error) {
    await removeLeftover(folder)
    throw error
  }
}

function prepared(
  path: string,
  {
    head,
    kind,
    space,
    size,
  }: Omit<Of, 'film'> & Readonly<{ size: Readonly<{ widthPx: number; heightPx: number }> }>,
): Sharp {
  const picture = sharp(path, {
    sequentialRead: (head.orientation ?? 1) === 1,
    limitInputPixels: false,
    ignoreIcc: space === 'cmyk' || profileOf(head) === 'of another kind',
    // Sloppy but whole TIFFs earn warnings; in the others a warning is damage that went unsaid.
    failOn: kind === 'tiff' ? 'error' : 'warning',
  }).autoOrient()
  const { width, height } = head.autoOrient
  const { widthPx, heightPx } = size
  const smaller =
    widthPx < width || heightPx < height
      ? picture.resize(widthPx, heightPx, { fit: 'fill', kernel: 'linear' })
      : picture
  if (space === 'cmyk') return smaller.pipelineColourspace('cmyk').toColourspace('cmyk')
  const opaque = head.hasAlpha ? smaller.flatten({ background: '#ffffff' }) : smaller
  return opaque.toColourspace(space === 'grey' ? 'b-w' : 'srgb')
}

/** Samples of two bytes as one. */
async function* shallow(bands: AsyncIterable<ArtworkBand>): AsyncGenerator<ArtworkBand> {
  for await (const { rows, samples } of bands) {
    const deep = new Uint16Array(samples.buffer, samples.byteOffset, samples.length / 2)
    yield { rows, samples: Uint8Array.from(deep, (sample) => Math.round(sample / 257)) }
  }
}

async function* bandsOf(
  file: FileHandle,
  { path, row, rows }: Readonly<{ path: string; row: number; rows: number }>,
): AsyncGenerator<ArtworkBand> {
  const most = Math.min(rows, Math.max(1, Math.floor(BAND_BYTES / row)))
  const samples = new Uint8Array(most * row)
  for (let top = 0; top < rows; top += most) {
    const part = samples.subarray(0, Math.min(most, rows - top) * row)
    for (let done = 0; done < part.length; ) {
      const at = HEAD_BYTES + top * row + done
      const { bytesRead } = await file.read(part, done, part.length - done, at)
      if (bytesRead === 0) throw unreadable(path, DAMAGED)
      done += bytesRead
    }
    yield { rows: part.length / row, samples: part }
  }
}

function noRoom(path: string): (cause: unknown) => never {
  return (cause) => {
    const where = `the temporary folder ${named(tmpdir())} refuses it (${systemCode(cause) || 'full'})`
    const message = `Cannot unpack ${named(path)}: ${where}; make room, or set TMPDIR to another folder.`
    throw new Failure('world failed', message, { cause })
  }
}
