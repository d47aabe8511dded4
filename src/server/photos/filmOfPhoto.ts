import { createReadStream } from 'node:fs'
import { open, rm } from 'node:fs/promises'
import { join } from 'node:path'
import type { FilmByPhoto } from '../../api/films.ts'
import type { PhotoFilm } from '../../api/photos.ts'
import { Failure } from '../../core/failure.ts'
import { deflater } from '../../decode/deflater.ts'
import { writeWhole } from '../../decode/files.ts'
import { withFilm } from '../../decode/openFilm.ts'
import { writeFloatTiff } from '../../formats/floatTiff.ts'
import { blobFile, storeBlob } from '../../store/blobs/blobStore.ts'
import { inTransaction } from '../../store/database/database.ts'
import { addFilm, changeFilm, type Film } from '../../store/films.ts'
import { sortableId } from '../../store/ids.ts'
import type { Photo } from '../../store/photos.ts'
import { withoutEnding } from '../http/fileBody.ts'
import { baseAsked, mediumAsked } from '../shop/exposureAsked.ts'
import type { ShopService } from '../shop/shopService.ts'
import type { ReadingFound } from './photoWork.ts'

const MOST_BYTES = 512 * 2 ** 20

/**
 * What was read in a photo becomes a film like any other, turned over or round where somebody says
 * that the photo shows it mirrored or upside down.
 *
 * @throws Failure 'wrong input' while there is no reading; 'not found' for a base or medium
 */
export async function filmOfPhoto(
  service: ShopService,
  photo: Photo,
  { name, mirrored, upsideDown = false, medium, base }: PhotoFilm,
): Promise<Film> {
  const { store, jobs, now } = service
  if (photo.subject !== 'film' || photo.mapBlob === null) {
    const message =
      'No film has been read in this photo yet: say where its sheet lies, and read it.'
    throw new Failure('wrong input', message)
  }
  const records = await service.records()
  const baseId = base === undefined ? records.usualBase.id : baseAsked(records, base).id
  const mediumId = medium === undefined ? null : mediumAsked(records, medium).id
  const turn = { mirrored, upsideDown }
  const mapBlob =
    mirrored || upsideDown ? await turned(service, photo.mapBlob, turn) : photo.mapBlob
  const setup = await service.usualSetup({ baseId })
  const film = await inTransaction(store.database, async (inner) => {
    const taken = await addFilm(
      inner,
      {
        kind: 'read',
        name: name ?? withoutEnding(photo.name),
        fileName: photo.name,
        originalBlob: photo.originalBlob,
        mapBlob,
        baseId,
        mediumId,
      },
      { at: now() },
    )
    const kept = await changeFilm(inner, taken.id, { byPhoto: toldBy(photo) })
    await jobs.queue(inner, { filmId: taken.id, setup })
    return kept
  })
  service.changed()
  jobs.wake()
  return film
}

/** What is kept with the film of the photo's own accuracy. */
function toldBy({ answer }: Photo): FilmByPhoto | null {
  const told = answer as ReadingFound | null
  if (told === null) return null
  const { densitySd, densityRange, smallestLineUm, wedge } = told
  // photos read by an older version were not asked what their marks look like
  const looksLike = told.looksLike ?? null
  return { densitySd, densityRange, smallestLineUm, wedge: wedge !== null, looksLike }
}

type Turn = Pick<Required<PhotoFilm>, 'mirrored' | 'upsideDown'>

/** A density map with left and right swapped, or turned half round, or both. */
async function turned(
  { store, now }: ShopService,
  mapBlob: string,
  { mirrored, upsideDown }: Turn,
): Promise<string> {
  const { path } = await blobFile(store.blobs, mapBlob)
  const scratch = join(store.folder.incoming, `${sortableId(now())}.turned`)
  try {
    await withFilm(path, {}, async ({ film }) => {
      const { widthPx, heightPx, pixelUm } = film
      const across = mirrored !== upsideDown
      const bands = upsideDown ? upwards(film, `${scratch}.rows`) : film.bands()
      await writeWhole(scratch, { force: true }, (sink) =>
        writeFloatTiff(
          { widthPx, heightPx, pixelUm, bands: swapped(bands, { widthPx, across }) },
          { sink, deflater: deflater() },
        ),
      )
    })
    const bytes = createReadStream(scratch, { highWaterMark: 2 ** 20 }) as AsyncIterable<Uint8Array>
    const wanted = { mediaType: 'image/tiff', limitBytes: MOST_BYTES }
    return (await storeBlob(store.blobs, bytes, wanted, { at: now() })).sha256
  } finally {
    await rm(scratch, { force: true })
    await rm(`${scratch}.rows`, { force: true })
  }
}

type Bands = AsyncGenerator<Readonly<{ rows: number; samples: Float32Array }>>

/** The rows with left and right swapped, where that is asked. */
async function* swapped(
  bands: AsyncIterable<FilmRows>,
  { widthPx, across }: Readonly<{ widthPx: number; across: boolean }>,
): Bands {
  for await (const { rows, samples } of bands) {
    const own = Float32Array.from(samples)
    for (let row = 0; across && row < rows; row += 1) {
      own.subarray(row * widthPx, (row + 1) * widthPx).reverse()
    }
    yield { rows, samples: own }
  }
}

type FilmRows = Readonly<{ rows: number; samples: ArrayLike<number> & Iterable<number> }>

/** The rows from the last to the first, by way of a file: a map may be larger than the memory. */
async function* upwards({ widthPx, heightPx, bands }: FilmPixels, scratch: string): Bands {
  const file = await open(scratch, 'w+')
  try {
    const rowBytes = 4 * widthPx
    let last = heightPx
    for await (const { rows, samples } of bands()) {
      const turned = new Float32Array(rows * widthPx)
      for (let row = 0; row < rows; row += 1) {
        const from = (rows - 1 - row) * widthPx
        for (let x = 0; x < widthPx; x += 1) turned[row * widthPx + x] = samples[from + x] ?? 0
      }
      last -= rows
      await file.write(new Uint8Array(turned.buffer), 0, rows * rowBytes, last * rowBytes)
    }
    for (let top = 0; top < heightPx; top += BAND_ROWS) {
      const rows = Math.min(BAND_ROWS, heightPx - top)
      const samples = new Float32Array(rows * widthPx)
      await file.read(new Uint8Array(samples.buffer), 0, rows * rowBytes, top * rowBytes)
      yield { rows, samples }
    }
  } finally {
    await file.close()
  }
}

const BAND_ROWS = 64

type FilmPixels = Readonly<{
  widthPx: number
  heightPx: number
  bands: () => AsyncIterable<FilmRows>
}>
