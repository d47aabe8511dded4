import { inflateSync } from 'node:zlib'
import { blobFile } from '../../store/blobs/blobStore.ts'
import type { Film } from '../../store/films.ts'
import type { OpenShop } from '../../store/openShop.ts'
import { type MarksFound, marksOfTile, wholeLevel } from '../../workflow/placeMarks.ts'
import { openTileFile } from '../jobs/tileFile.ts'

/** What of a film’s sheet has marks, from its smallest picture; null where it has none yet. */
export async function filmMarks(
  { blobs }: Pick<OpenShop, 'blobs'>,
  { tilesBlob, widthMm, heightMm, pixelUm }: Film,
): Promise<MarksFound | null> {
  if (tilesBlob === null || widthMm === null || heightMm === null || pixelUm === null) return null
  const px = (mm: number): number => Math.round((mm * 1000) / pixelUm)
  const film = { widthPx: px(widthMm), heightPx: px(heightMm), pixelUm }
  const { path } = await blobFile(blobs, tilesBlob)
  const { store, close } = await openTileFile(path)
  try {
    const packed = await store.tile({ level: wholeLevel(film), x: 0, y: 0 })
    if (packed === null) return null
    const found = marksOfTile(inflateSync(packed), { ...film, sheet: { widthMm, heightMm } })
    return found !== null && found.box.widthMm > 0.1 && found.box.heightMm > 0.1 ? found : null
  } finally {
    await close()
  }
}
