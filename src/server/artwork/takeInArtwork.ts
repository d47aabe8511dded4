import type { ArtworkQuestion } from '../../api/artwork.ts'
import { type Artwork, addArtwork } from '../../store/artworks.ts'
import { storeBlob } from '../../store/blobs/blobStore.ts'
import { ticketOf } from '../../store/tickets.ts'
import { MOST_UPLOAD_BYTES } from '../films/upload.ts'
import { fileBody, fileNameOf, withoutEnding } from '../http/fileBody.ts'
import type { ShopService } from '../shop/shopService.ts'

/**
 * Takes in artwork: its file streamed to the disk, then its record. It is looked at once.
 *
 * @throws Failure 'too large'; 'wrong input' for a file that broke off; 'not found' for a ticket
 */
export async function takeInArtwork(
  { store, artwork, now }: ShopService,
  request: Request,
  { ticket }: ArtworkQuestion,
): Promise<Artwork> {
  const ticketId = ticket === undefined ? null : (await ticketOf(store.database, ticket)).ticket.id
  const fileName = fileNameOf(request, { unnamed: 'artwork' })
  const { sha256 } = await storeBlob(
    store.blobs,
    fileBody(request, { mostBytes: MOST_UPLOAD_BYTES }),
    { mediaType: 'application/octet-stream', limitBytes: MOST_UPLOAD_BYTES },
    { at: now() },
  )
  const taken = await addArtwork(
    store.database,
    { name: withoutEnding(fileName), fileName, originalBlob: sha256, ticketId, plan: null },
    { at: now() },
  )
  artwork.care(taken)
  return taken
}
