import type { ByteSink } from './bytes.ts'
import { sha256 } from './sha256.ts'

/** Writes the objects of a PDF front to back and keeps only where each begins. */
export type PdfDocument = Readonly<{
  /** A number for an object that is written later. */
  reserve: () => number
  object: (id: number, body: string) => Promise<void>
  /** A stream object whose data follow by `write`; `entries` as in a dictionary. */
  openStream: (id: number, entries: string) => Promise<void>
  write: (bytes: Uint8Array) => Promise<void>
  closeStream: () => Promise<void>
  /** The table of objects and what stands behind it. */
  finish: (of: Readonly<{ root: number; info?: number }>) => Promise<void>
}>

/** 1.6: the first that lets a page ask to be printed at its own size. */
const HEAD = '%PDF-1.6\n%\xe2\xe3\xcf\xd3\n'
const ID_BYTES = 16

/**
 * The two identifiers are the beginning of the SHA-256 of all that stands before the table of
 * objects: same content, same file.
 *
 * @source pdf32000 (7.3, 7.5; 14.4 identifiers)
 */
export async function pdfDocument(sink: Pick<ByteSink, 'write'>): Promise<PdfDocument> {
  const offsets: number[] = [0]
  const hash = sha256()
  let at = 0
  let stream: Readonly<{ start: number; lengthId: number }> | null = null
  const write = async (bytes: Uint8Array): Promise<void> => {
    if (bytes.length === 0) return
    hash.add(bytes)
    at += bytes.length
    await sink.write(bytes)
  }
  const text = (words: string): Promise<void> => write(latin(words))
  const reserve = (): number => offsets.push(-1) - 1
  const object = async (id: number, body: string): Promise<void> => {
    offsets[id] = at
    await text(`${id} 0 obj\n${body}\nendobj\n`)
  }
  await text(HEAD)
  return {
    reserve,
    object,
    write,
    openStream: async (id, entries) => {
      if (stream !== null) throw new RangeError('stream: expected the one before to be closed')
      const lengthId = reserve()
      offsets[id] = at
      await text(`${id} 0 obj\n<< ${entries} /Length ${lengthId} 0 R >>\nstream\n`)
      stream = { start: at, lengthId }
    },
    closeStream: async () => {
      if (stream === null) throw new RangeError('stream: expected one that is open')
      const { start, lengthId } = stream
      stream = null
      const length = at - start
      await text('\nendstream\nendobj\n')
      await object(lengthId, `${length}`)
    },
    finish: async ({ root, info }) => {
      const missing = offsets.indexOf(-1)
      if (missing >= 0) throw new RangeError(`objects: expected number ${missing} to be written`)
      const startsAt = at
      const id = [...hash.end().subarray(0, ID_BYTES)]
        .map((byte) => byte.toString(16).padStart(2, '0'))
        .join('')
      const rows = offsets.slice(1).map((offset) => `${`${offset}`.padStart(10, '0')} 00000 n \n`)
      const named = info === undefined ? '' : ` /Info ${info} 0 R`
      const trailer = `<< /Size ${offsets.length} /Root ${root} 0 R${named} /ID [<${id}> <${id}>] >>`
      const table = `xref\n0 ${offsets.length}\n0000000000 65535 f \n${rows.join('')}`
      await sink.write(latin(`${table}trailer\n${trailer}\nstartxref\n${startsAt}\n%%EOF\n`))
    },
  }
}

/** Text as bytes, a byte a character. */
export function latin(words: string): Uint8Array {
  return Uint8Array.from(words, (letter) => letter.charCodeAt(0))
}
