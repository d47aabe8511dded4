import { inflateSync } from 'node:zlib'
import type { Box } from '../../core/placement/problem.ts'
import { blobFile } from '../../store/blobs/blobStore.ts'
import type { Film } from '../../store/films.ts'
import type { OpenShop } from '../../store/openShop.ts'
import { marksExtent, wholeLevel } from '../../workflow/placeMarks.ts'
import { openTileFile } from '../jobs/tileFile.ts'

/** The part of a film’s sheet that has marks, from its smallest picture; null where it has none yet. */
export async function marksBox(
  { blobs }: Pick<OpenShop, 'blobs'>,
  { tilesBlob, widthMm, heightMm, pixelUm }: Film,
): Promise<Box | null> {
  if (tilesBlob === null || widthMm === null || heightMm === null || pixelUm === null) return null
  const px = (mm: number): number => Math.round((mm * 1000) / pixelUm)
  const film = { widthPx: px(widthMm), heightPx: px(heightMm), pixelUm }
  const { path } = await blobFile(blobs, tilesBlob)
  const { store, close } = await openTileFile(path)
  try {
    const packed = await store.tile({ level: wholeLevel(film), x: 0, y: 0 })
    const found = packed === null ? null : marksExtent(inflateSync(packed), film)
    if (found === null) return null
    // The sheet is as long as was measured, whatever its pixels come to.
    const [width, height] = [
      Math.min(found.widthMm, widthMm - found.xMm),
      Math.min(found.heightMm, heightMm - found.yMm),
    ]
    return width > 0.1 && height > 0.1 ? { ...found, widthMm: width, heightMm: height } : null
  } finally {
    await close()
  }
}
