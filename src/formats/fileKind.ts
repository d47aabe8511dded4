/** What a file is by its first bytes, whatever its name says. */
export type FileKind =
  | 'png'
  | 'jpeg'
  | 'webp'
  | 'tiff'
  | 'pdf'
  | 'zip'
  | 'svg'
  | 'heic'
  | 'gif'
  | 'text'
  | 'empty'
  | 'unknown'

/** Bytes of the head that `fileKind` wants to see. */
export const HEAD_BYTES = 512

const SIGNATURES: readonly (readonly [FileKind, number, string])[] = [
  ['png', 0, '\x89PNG\r\n\x1a\n'],
  ['jpeg', 0, '\xff\xd8\xff'],
  ['webp', 8, 'WEBP'],
  ['tiff', 0, 'II*\0'],
  ['tiff', 0, 'MM\0*'],
  ['tiff', 0, 'II+\0'],
  ['tiff', 0, 'MM\0+'],
  ['zip', 0, 'PK\x03\x04'],
  ['zip', 0, 'PK\x05\x06'],
  ['heic', 4, 'ftyp'],
  ['gif', 0, 'GIF8'],
]

export function fileKind(head: Uint8Array): FileKind {
  if (head.length === 0) return 'empty'
  const text = String.fromCharCode(...head.subarray(0, HEAD_BYTES))
  const found = SIGNATURES.find(([, offset, mark]) => text.startsWith(mark, offset))
  if (found !== undefined) return found[0]
  if (text.includes('%PDF-')) return 'pdf'
  if (/^\uFEFF?[\s\S]{0,400}<svg[\s>]/i.test(text)) return 'svg'
  // Control characters other than tab, line feed, form feed and return do not stand in text.
  return /^[^\0-\x08\x0b\x0e-\x1a\x1c-\x1f]+$/.test(text) ? 'text' : 'unknown'
}
