import type { UploadQuestion } from '../../api/films.ts'
import { Failure } from '../../core/failure.ts'
import { density } from '../../core/units/quantity.ts'
import { storeBlob } from '../../store/blobs/blobStore.ts'
import { inTransaction } from '../../store/database/database.ts'
import { addFilm, type Film } from '../../store/films.ts'
import { baseAsked } from '../shop/exposureAsked.ts'
import type { ShopService } from '../shop/shopService.ts'

export const MOST_UPLOAD_BYTES: number = 512 * 2 ** 20

/**
 * Takes in a film: its file streamed to the disk, its record and its reading written together. Once
 * this has answered the film is in the shop whatever happens.
 *
 * @throws Failure 'too large'; 'wrong input' for a file that broke off; 'not found' for a base
 */
export async function takeInFilm(
  service: ShopService,
  request: Request,
  question: UploadQuestion,
): Promise<Film> {
  const { store, jobs, now } = service
  const records = await service.records()
  const { base, resolutionDpi = null, solidDensity = null, as: readAs = null } = question
  const baseId = base === undefined ? records.usualBase.id : baseAsked(records, base).id
  const fileName = cleanName(request.headers.get('x-file-name'))
  const blob = await storeBlob(
    store.blobs,
    wholeBody(request),
    { mediaType: 'application/octet-stream', limitBytes: MOST_UPLOAD_BYTES },
    { at: now() },
  )
  const setup = await service.usualSetup({ baseId })
  const film = await inTransaction(store.database, async (inner) => {
    const taken = await addFilm(
      inner,
      {
        kind: 'read',
        name: withoutEnding(fileName),
        fileName,
        originalBlob: blob.sha256,
        baseId,
        resolutionDpi,
        readAs,
        solidDensity: solidDensity === null ? null : density(solidDensity),
      },
      { at: now() },
    )
    await jobs.queue(inner, { filmId: taken.id, setup })
    return taken
  })
  service.changed()
  jobs.wake()
  return film
}

/** The body as it comes, at most as long as it may be and just as long as it says. */
async function* wholeBody(request: Request): AsyncGenerator<Uint8Array> {
  const said = request.headers.get('content-length')
  if (Number(said ?? 0) > MOST_UPLOAD_BYTES) throw tooLarge()
  let size = 0
  if (request.body !== null) {
    try {
      for await (const part of request.body as unknown as AsyncIterable<Uint8Array>) {
        size += part.length
        yield part
      }
    } catch (cause) {
      throw brokeOff(cause)
    }
  }
  if (said !== null && Number(said) !== size) throw brokeOff(null)
}

function tooLarge(): Failure {
  const message = `The file has more than ${MOST_UPLOAD_BYTES / 2 ** 20} MB, and that is the most that is taken: save it with compression or with fewer pixels.`
  return new Failure('too large', message)
}

function brokeOff(cause: unknown): Failure {
  return new Failure('wrong input', 'The file broke off on its way here: send it again.', { cause })
}

const LONGEST_NAME = 120

/** What the file was called where it came from: no path, nothing that moves a cursor, not empty. */
export function cleanName(written: string | null): string {
  const plain = decoded(written ?? '')
    .replace(/^.*[/\\]/s, '')
    .replace(/[\p{C}\s]+/gu, ' ')
    .trim()
  const shortened = [...plain].slice(0, LONGEST_NAME).join('').trim()
  return shortened === '' ? 'film' : shortened
}

function withoutEnding(name: string): string {
  return name.replace(/(?<=.)\.\w{1,5}$/, '')
}

function decoded(text: string): string {
  try {
    return decodeURIComponent(text)
  } catch {
    return text
  }
}
