import { createReadStream } from 'node:fs'
import { type Mm, mm, type Um, um } from '../../core/units/quantity.ts'
import type { BlobRecord } from '../../store/blobs/blobRecord.ts'
import { storeBlob } from '../../store/blobs/blobStore.ts'
import { inTransaction } from '../../store/database/database.ts'
import type { Json } from '../../store/database/record.ts'
import { type Film, filmIsReady } from '../../store/films.ts'
import { keepForecast } from '../../store/forecasts.ts'
import { endJob, type Held } from '../../store/jobLease.ts'
import type { OpenShop } from '../../store/openShop.ts'
import { forecastKey } from '../films/filmKey.ts'
import type { FilmWork, FilmWorkPicture, FilmWorkResult } from './work.ts'

type Place = Pick<OpenShop, 'database' | 'blobs'>
type At = Readonly<{ at: Date }>

/** A film's true size. */
export type FilmSize = Readonly<{ widthMm: Mm; heightMm: Mm; pixelUm: Um }>

const MOST_BYTES = 8 * 2 ** 30
const TILES_TYPE = 'application/x.yellowroom-tiles'

export function sizeOf({ widthPx, heightPx, pixelUm }: FilmWorkPicture['picture']): FilmSize {
  return {
    widthMm: mm((widthPx * pixelUm) / 1000),
    heightMm: mm((heightPx * pixelUm) / 1000),
    pixelUm: um(pixelUm),
  }
}

/**
 * Keeps the picture, for the page to draw while the marks are still looked through.
 *
 * @returns its tiles when they are all there
 */
export async function keepPicture(
  { database, blobs }: Place,
  {
    film,
    work: { setup, tilesPath, shownPath },
    found,
    at,
  }: At & Readonly<{ film: Film; work: FilmWork; found: FilmWorkPicture }>,
): Promise<BlobRecord | null> {
  const isWhole = found.picture.pyramid.finest === 0
  const path = isWhole ? tilesPath : shownPath
  const tiles = await blobFrom(blobs, path, { mediaType: TILES_TYPE, at })
  const answer = { ...found, findings: null, withoutFaint: null } as unknown as Json
  const kept = { setup: setup as unknown as Json, answer, leakBlob: tiles.sha256 }
  await keepForecast(database, { ...forecastKey(film.id, setup), ...kept }, { at })
  return isWhole ? tiles : null
}

/**
 * Keeps all that was found out, and that the job is done: together or not at all.
 *
 * @param of tiles: null when they are not all kept yet
 * @returns false when the job is another's now, and nothing was written
 */
export async function keepFilm(
  { database, blobs }: Place,
  {
    held,
    film,
    work,
    tiles: kept,
    result,
    at,
  }: At &
    Readonly<{
      held: Held
      film: Film
      work: FilmWork
      tiles: BlobRecord | null
      result: FilmWorkResult
    }>,
): Promise<boolean> {
  const { source, setup, tilesPath } = work
  const tiles = kept ?? (await blobFrom(blobs, tilesPath, { mediaType: TILES_TYPE, at }))
  const map =
    source.kind === 'demo'
      ? await blobFrom(blobs, source.mapPath, { mediaType: 'image/tiff', at })
      : null
  const { picture, ...found } = result
  return inTransaction(database, async (inner) => {
    const mine = await endJob(inner, held, { state: 'done', result: null }, { at })
    if (!mine) return false
    const answer = result as unknown as Json
    const forecast = { setup: setup as unknown as Json, answer, leakBlob: tiles.sha256 }
    await keepForecast(inner, { ...forecastKey(film.id, setup), ...forecast }, { at })
    if (film.status === 'ready') return true
    const files = { mapBlob: map?.sha256 ?? film.mapBlob, tilesBlob: tiles.sha256 }
    const marks = found as unknown as Json
    await filmIsReady(inner, film.id, { ...sizeOf(picture), ...files, marks }, { at })
    return true
  })
}

function blobFrom(
  blobs: OpenShop['blobs'],
  path: string,
  { mediaType, at }: At & Readonly<{ mediaType: string }>,
): Promise<BlobRecord> {
  const bytes = createReadStream(path, { highWaterMark: 2 ** 20 }) as AsyncIterable<Uint8Array>
  return storeBlob(blobs, bytes, { mediaType, limitBytes: MOST_BYTES }, { at })
}
