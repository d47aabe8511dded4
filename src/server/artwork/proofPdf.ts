import { Failure } from '../../core/failure.ts'
import { deflater } from '../../decode/deflater.ts'
import { rgbOfPng } from '../../decode/picture.ts'
import type { ByteSink } from '../../formats/bytes.ts'
import { writePicturePdf } from '../../formats/picturePdf.ts'
import type { Artwork } from '../../store/artworks.ts'
import { readBlob } from '../../store/blobs/blobStore.ts'
import type { OpenShop } from '../../store/openShop.ts'
import { filmSize } from '../../workflow/makeFilms/filmSize.ts'
import { planFromJson } from '../../workflow/makeFilms/readPlan.ts'
import type { Made, Seen } from './artworkWork.ts'

/**
 * The proof of the newest films as a page at the print's own size.
 *
 * @throws Failure 'not found' while no films were made
 */
export async function proofPdf(
  { blobs }: Pick<OpenShop, 'blobs'>,
  { made, proofBlob, seen, name }: Artwork,
): Promise<(sink: Pick<ByteSink, 'write'>) => Promise<void>> {
  if (made === null || proofBlob === null || seen === null) {
    throw new Failure('not found', 'No films have been made of it yet.')
  }
  const plan = planFromJson(JSON.stringify((made as unknown as Made).plan))
  const { widthMm, heightMm } = filmSize(plan, seen as unknown as Seen)
  const parts: Uint8Array[] = []
  const stream = await readBlob(blobs, proofBlob)
  for await (const part of stream as AsyncIterable<Uint8Array>) parts.push(part)
  const picture = await rgbOfPng(Buffer.concat(parts))
  return (sink) =>
    writePicturePdf(
      { ...picture, widthMm, heightMm },
      { sink, deflater: deflater(), title: `${name}, proof` },
    )
}
