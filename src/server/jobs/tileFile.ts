import { open } from 'node:fs/promises'
import { openTileStore, type TileStore } from '../../formats/tileStore.ts'

/** A tile store that lies in a file, for as long as it is open. */
export type TileFile = Readonly<{ store: TileStore; close: () => Promise<void> }>

/** @throws Failure 'unreadable file' for another file; what the system throws */
export async function openTileFile(path: string): Promise<TileFile> {
  const file = await open(path, 'r')
  try {
    const store = await openTileStore({
      sizeBytes: (await file.stat()).size,
      read: async (offset, length) => {
        const bytes = new Uint8Array(length)
        const { bytesRead } = await file.read(bytes, 0, length, offset)
        return bytes.subarray(0, bytesRead)
      },
    })
    return { store, close: () => file.close() }
  } catch (cause) {
    await file.close()
    throw cause
  }
}
