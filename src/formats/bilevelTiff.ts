import { type Bilevel, blocksOf, expectBilevel, rowBytesOf } from './bilevel.ts'
import type { ByteSink } from './bytes.ts'
import { g4Encoder } from './g4Encoder.ts'
import {
  CLASSIC_BYTES,
  resolutionFields,
  type TiffField,
  tiffDirectory,
  tiffHead,
} from './tiffParts.ts'

export type BilevelTiffOutput = Readonly<{
  sink: ByteSink
  /** 8-byte addresses; from 4 GB on there is no other way, and then it is so anyhow. */
  big?: boolean
}>

/** A strip before it is coded, about: what a reader holds at a time. */
const STRIP_BYTES = 2 ** 20

/** Both kinds of head fit before the first strip, so the kind may be chosen when all is written. */
const FIRST_STRIP_AT = 16

type Strips = Readonly<{ offsets: number[]; byteCounts: number[]; rowsEach: number }>

/**
 * Writes a film as a 1-bit TIFF in Group 4, as its rows come, keeping two rows and one band's codes.
 *
 * In strips of about a megabyte of plain rows, each coded for itself: a reader needs no more memory
 * than one strip, may begin at any of them, and a damaged one costs its own rows only. A strip's
 * first row is coded against a white one, which lengthens the file by a row in every few hundred.
 *
 * Strips first, the directory last; the head is written at the end. Same film: same bytes, however
 * its rows came.
 *
 * @throws RangeError where a side or the pixel is out of range, or the rows do not fill the height
 * @source tiff6 (sections 3 and 8 and 11), t6, bigtiff
 */
export async function writeBilevelTiff(film: Bilevel, output: BilevelTiffOutput): Promise<void> {
  expectBilevel(film)
  const { sink } = output
  await sink.write(new Uint8Array(FIRST_STRIP_AT))
  const { strips, end } = await writeStrips(film, sink)
  const directoryAt = end + (end % 2) // a directory begins at an even address
  await sink.write(new Uint8Array(directoryAt - end))
  const fields = fieldsOf(film, strips)
  const classic = tiffDirectory(fields, { big: false, directoryAt: 0 })
  const big = output.big === true || directoryAt + classic.length > CLASSIC_BYTES
  await sink.write(tiffDirectory(fields, { big, directoryAt }))
  await sink.rewrite(0, tiffHead({ big }, { directoryAt }))
}

async function writeStrips(
  film: Bilevel,
  sink: ByteSink,
): Promise<Readonly<{ strips: Strips; end: number }>> {
  const rowsEach = Math.max(1, Math.floor(STRIP_BYTES / rowBytesOf(film)))
  const strips: Strips = {
    offsets: [],
    byteCounts: [],
    rowsEach: Math.min(rowsEach, film.heightPx),
  }
  const encoder = g4Encoder(film)
  let stripAt = FIRST_STRIP_AT
  let end = stripAt
  const write = async (bytes: Uint8Array): Promise<void> => {
    end += bytes.length
    if (bytes.length > 0) await sink.write(bytes)
  }
  for await (const { bits, endsBlock } of blocksOf(film, { blockRows: rowsEach })) {
    await write(encoder.push(bits))
    if (!endsBlock) continue
    await write(encoder.end())
    strips.offsets.push(stripAt)
    strips.byteCounts.push(end - stripAt)
    stripAt = end
  }
  return { strips, end }
}

function fieldsOf({ widthPx, heightPx, pixelUm }: Bilevel, strips: Strips): readonly TiffField[] {
  return [
    { tag: 256, type: 'long', values: [widthPx] },
    { tag: 257, type: 'long', values: [heightPx] },
    { tag: 258, type: 'short', values: [1] }, // bits a sample
    { tag: 259, type: 'short', values: [4] }, // T.6
    { tag: 262, type: 'short', values: [0] }, // white is zero: a bit of 1 shows as black
    { tag: 266, type: 'short', values: [1] }, // the first pixel in the highest bit
    { tag: 273, type: 'address', values: strips.offsets },
    { tag: 277, type: 'short', values: [1] }, // samples a pixel
    { tag: 278, type: 'long', values: [strips.rowsEach] },
    { tag: 279, type: 'address', values: strips.byteCounts },
    { tag: 293, type: 'long', values: [0] }, // T6Options: never uncompressed
    ...resolutionFields({ pixelUm }),
  ]
}
