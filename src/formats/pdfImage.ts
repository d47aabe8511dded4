import { type Bilevel, blocksOf, rowBytesOf } from './bilevel.ts'
import type { Deflater, DeflateStream } from './bytes.ts'
import { g4Encoder } from './g4Encoder.ts'

/** A taller bitmap becomes several images: readers are known to refuse 65 536 rows of Group 4. */
export const IMAGE_ROWS: number = 65_000

export function imagesIn({ heightPx }: Pick<Bilevel, 'heightPx'>): number {
  return Math.ceil(heightPx / IMAGE_ROWS)
}

/** And as many columns, which can go by Flate only. */
const MOST_G4_COLUMNS = 65_535

/** How much of a film is coded in Group 4, blank rows before it apart, until its kind is chosen. */
const PROBE_BYTES = 2 ** 22

/** Blank rows that go into the compressor at a time. */
const BLANK_BYTES = 2 ** 16

/** Group 4 past this share of the plain bits loses to Flate. */
const LOSING_SHARE = 0.5

export type PdfImageSink = Readonly<{
  /** Begins one image of so many rows; `coding` are entries of its dictionary. */
  open: (image: Readonly<{ rows: number; coding: string }>) => Promise<void>
  write: (bytes: Uint8Array) => Promise<void>
  close: () => Promise<void>
}>

/**
 * A film's bits as one image, or several one under another, 1 for black: in Group 4, or deflated
 * where Group 4 would take more than half of the plain bits, as it does with fine noise.
 *
 * The kind is chosen by the first rows that are not blank, 4 MB of them, which are kept until then.
 * Without a compressor it is always Group 4.
 *
 * @source pdf32000 (7.4.4 Flate, 7.4.6 CCITTFax)
 */
export async function writePdfImages(
  film: Bilevel,
  { sink, deflater }: Readonly<{ sink: PdfImageSink; deflater?: Deflater | undefined }>,
): Promise<void> {
  let image: Image | null = null
  for await (const { top, bits, endsBlock } of blocksOf(film, { blockRows: IMAGE_ROWS })) {
    const rows = Math.min(IMAGE_ROWS, film.heightPx - top)
    image ??= imageOf({ widthPx: film.widthPx, rows }, { sink, deflater })
    await image.push(bits)
    if (!endsBlock) continue
    await image.end()
    image = null
  }
}

type Image = Readonly<{ push: (bits: Uint8Array) => Promise<void>; end: () => Promise<void> }>
type Size = Readonly<{ widthPx: number; rows: number }>
type Means = Readonly<{ sink: PdfImageSink; deflater?: Deflater | undefined }>

function imageOf(size: Size, means: Means): Image {
  const rowBytes = rowBytesOf(size)
  const { deflater } = means
  if (deflater === undefined) return g4Image(size, means.sink)
  if (size.widthPx > MOST_G4_COLUMNS) return flateImage(size, { ...means, deflater })
  const encoder = g4Encoder(size)
  const coded: Uint8Array[] = []
  const kept: Uint8Array[] = []
  let blankRows = 0
  let room = Math.max(rowBytes, PROBE_BYTES - (PROBE_BYTES % rowBytes))
  let chosen: Image | null = null
  const choose = async (): Promise<Image> => {
    const codedBytes = coded.reduce((sum, { length }) => sum + length, 0)
    const plainBytes = kept.reduce((sum, { length }) => sum + length, 0)
    if (codedBytes <= LOSING_SHARE * plainBytes || plainBytes === 0) {
      const image = g4Image(size, means.sink, encoder)
      for (const part of coded) await image.write(part)
      return image
    }
    const image = flateImage(size, { ...means, deflater })
    await image.pushBlank(blankRows)
    for (const part of kept) await image.push(part)
    return image
  }
  return {
    push: async (bits) => {
      let at = 0
      if (chosen === null) {
        if (kept.length === 0) {
          const blank = blankRowsIn(bits, size)
          blankRows += blank
          at = blank * rowBytes
          coded.push(encoder.push(bits.subarray(0, at)).slice())
        }
        const probed = bits.subarray(at, at + room)
        if (probed.length > 0) {
          kept.push(probed.slice())
          coded.push(encoder.push(probed).slice())
          room -= probed.length
          at += probed.length
        }
        if (room === 0) chosen = await choose()
      }
      if (chosen !== null && at < bits.length) await chosen.push(bits.subarray(at))
    },
    end: async () => {
      chosen ??= await choose()
      await chosen.end()
    },
  }
}

function g4Image(
  { widthPx, rows }: Size,
  sink: PdfImageSink,
  encoder: ReturnType<typeof g4Encoder> = g4Encoder({ widthPx }),
): Image & Readonly<{ write: (coded: Uint8Array) => Promise<void> }> {
  const parameters = `/K -1 /Columns ${widthPx} /Rows ${rows} /BlackIs1 true`
  const coding = `/Filter /CCITTFaxDecode /DecodeParms << ${parameters} >>`
  const write = opening(sink, { rows, coding })
  return {
    write,
    push: (bits) => write(encoder.push(bits)),
    end: async () => {
      await write(encoder.end())
      await sink.close()
    },
  }
}

function flateImage(
  size: Size,
  { sink, deflater }: Readonly<{ sink: PdfImageSink; deflater: Deflater }>,
): Image & Readonly<{ pushBlank: (rows: number) => Promise<void> }> {
  const rowBytes = rowBytesOf(size)
  const write = opening(sink, { rows: size.rows, coding: '/Filter /FlateDecode' })
  const stream: DeflateStream = deflater.stream()
  const pass = async (parts: readonly Uint8Array[]): Promise<void> => {
    for (const part of parts) await write(part)
  }
  return {
    push: async (bits) => pass(await stream.push(withoutRest(bits, size))),
    pushBlank: async (rows) => {
      const atOnce = Math.max(1, Math.floor(BLANK_BYTES / rowBytes))
      for (let done = 0; done < rows; done += atOnce) {
        const part = new Uint8Array(rowBytes * Math.min(atOnce, rows - done))
        await pass(await stream.push(part))
      }
    },
    end: async () => {
      await pass(await stream.end())
      await sink.close()
    },
  }
}

/** A writer that opens the image before its first bytes. */
function opening(
  sink: PdfImageSink,
  image: Readonly<{ rows: number; coding: string }>,
): (bytes: Uint8Array) => Promise<void> {
  let open = false
  return async (bytes) => {
    if (!open) await sink.open(image)
    open = true
    await sink.write(bytes)
  }
}

/** How many rows from the first on have no black pixel. */
function blankRowsIn(bits: Uint8Array, size: Size): number {
  const rowBytes = rowBytesOf(size)
  const inLast = lastByteMask(size)
  const at = bits.findIndex((byte, index) =>
    index % rowBytes === rowBytes - 1 ? (byte & inLast) !== 0 : byte !== 0,
  )
  return at < 0 ? bits.length / rowBytes : Math.floor(at / rowBytes)
}

/** The rows with zeros past the width: as they are, or a copy. */
function withoutRest(bits: Uint8Array, size: Size): Uint8Array {
  const rowBytes = rowBytesOf(size)
  const inLast = lastByteMask(size)
  if (inLast === 0xff) return bits
  const clean = bits.slice()
  for (let at = rowBytes - 1; at < clean.length; at += rowBytes)
    clean[at] = (clean[at] ?? 0) & inLast
  return clean
}

function lastByteMask({ widthPx }: Size): number {
  return widthPx % 8 === 0 ? 0xff : (0xff << (8 - (widthPx % 8))) & 0xff
}
