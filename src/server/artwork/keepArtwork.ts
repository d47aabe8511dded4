import { createReadStream } from 'node:fs'
import { share } from '../../core/units/quantity.ts'
import { type Artwork, artworkOf, changeArtwork, keepMadeFilms } from '../../store/artworks.ts'
import { storeBlob } from '../../store/blobs/blobStore.ts'
import { inTransaction } from '../../store/database/database.ts'
import type { Json } from '../../store/database/record.ts'
import { inkLimitOf } from '../../store/inkLimit.ts'
import { endJob, type Held } from '../../store/jobLease.ts'
import type { OpenShop } from '../../store/openShop.ts'
import { usualPlan } from '../../workflow/makeFilms/usualPlan.ts'
import { fabricOfArtwork, inksOfTicket } from './artworkThings.ts'
import type { ArtworkResult, Seen } from './artworkWork.ts'

type Place = Pick<OpenShop, 'database' | 'blobs'>

/** A film of 1.5 gigapixels that no row repeats. */
const MOST_BYTES = 2 ** 30

/** Keeps what was seen of artwork, and proposes a plan where nobody made one. */
export async function keepLook(
  { database, blobs }: Place,
  {
    artwork: { id },
    seen,
    samplesPath,
    at,
  }: Readonly<{ artwork: Artwork; seen: Seen; samplesPath: string; at: Date }>,
): Promise<void> {
  const samplesBlob = await kept(blobs, samplesPath, { mediaType: TILES_TYPE, at })
  // what somebody settled while it was looked at stands
  const { plan, ticketId, fabricId } = await artworkOf(database, id)
  const fabric = await fabricOfArtwork(database, fabricId)
  const proposed = async (): Promise<Json> =>
    usualPlan(
      { ...seen, hasMore: seen.picture.hasMore === true },
      {
        inks: await inksOfTicket(database, ticketId),
        fabric,
        coverage: await inkLimitOf(database),
      },
    ) as Json
  await changeArtwork(database, id, {
    seen: seen,
    samplesBlob,
    plan: plan ?? (await proposed()),
    fabricId: fabric?.id ?? null,
  })
}

/**
 * Keeps the films that were made, and that the job is done: together or not at all.
 *
 * @returns false when the job is another's now, and nothing was written
 */
export async function keepMade(
  { database, blobs }: Place,
  {
    held,
    artwork,
    result,
    at,
  }: Readonly<{
    held: Held
    artwork: Artwork
    result: Extract<ArtworkResult, { kind: 'make' }>
    at: Date
  }>,
): Promise<boolean> {
  const films: Parameters<typeof keepMadeFilms>[2]['films'][number][] = []
  for (const [index, { ink, coverageShare, pdfPath, tiffPath }] of result.films.entries()) {
    const pdfBlob = await kept(blobs, pdfPath, { mediaType: 'application/pdf', at })
    const tiffBlob = await kept(blobs, tiffPath, { mediaType: 'image/tiff', at })
    films.push({ place: index + 1, ink, coverageShare: share(coverageShare), pdfBlob, tiffBlob })
  }
  const proofBlob = await kept(blobs, result.proofPath, { mediaType: 'image/png', at })
  const made = result.made as unknown as Json
  return inTransaction(database, async (inner) => {
    const mine = await endJob(inner, held, { state: 'done', result: null }, { at })
    if (mine) await keepMadeFilms(inner, artwork.id, { made, proofBlob, films }, { at })
    return mine
  })
}

const TILES_TYPE = 'application/x.yellowroom-tiles'

async function kept(
  blobs: OpenShop['blobs'],
  path: string,
  { mediaType, at }: Readonly<{ mediaType: string; at: Date }>,
): Promise<string> {
  const bytes = createReadStream(path, { highWaterMark: 2 ** 20 }) as AsyncIterable<Uint8Array>
  return (await storeBlob(blobs, bytes, { mediaType, limitBytes: MOST_BYTES }, { at })).sha256
}
