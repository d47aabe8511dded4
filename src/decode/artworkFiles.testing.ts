import { crc32, deflateSync } from 'node:zlib'

/** Artwork files laid out by hand, for what no program at hand would write. */

export function latin(text: string): Uint8Array {
  return Buffer.from(text, 'latin1')
}

export function svgFile(inner: string, attributes = 'width="30mm" height="20mm"'): Uint8Array {
  const names = 'xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink"'
  return Buffer.from(`<svg ${names} ${attributes} viewBox="0 0 30 20">${inner}</svg>`)
}

/** Chunks of a PNG, each with its length and sum. */
export function pngFile(chunks: readonly (readonly [string, Uint8Array])[]): Uint8Array {
  const parts = chunks.map(([type, data]) => {
    const body = Buffer.concat([Buffer.from(type), data])
    const [length, sum] = [Buffer.alloc(4), Buffer.alloc(4)]
    length.writeUInt32BE(data.length)
    sum.writeUInt32BE(crc32(body))
    return Buffer.concat([length, body, sum])
  })
  return Buffer.concat([latin('\x89PNG\r\n\x1a\n'), ...parts])
}

/** A PNG whose head claims a size, with a few rows of nothing behind it. */
export function pngClaiming(
  [width, height]: readonly [number, number],
  { colour = 2, interlaced = 0 } = {},
): Uint8Array {
  const head = Buffer.alloc(13)
  head.writeUInt32BE(width, 0)
  head.writeUInt32BE(height, 4)
  head.set([8, colour, 0, 0, interlaced], 8)
  return pngFile([
    ['IHDR', head],
    ['IDAT', deflateSync(new Uint8Array(100))],
    ['IEND', new Uint8Array(0)],
  ])
}

/** A PDF of these objects, the first its catalog, with a table of where they stand. */
export function pdfFile(objects: readonly (string | Uint8Array)[], trailer = ''): Uint8Array {
  const parts: Uint8Array[] = [latin('%PDF-1.7\n')]
  let length = parts[0]?.length ?? 0
  const offsets = objects.map((object, at) => {
    const offset = length
    const body = typeof object === 'string' ? latin(object) : object
    const part = Buffer.concat([latin(`${at + 1} 0 obj\n`), body, latin('\nendobj\n')])
    parts.push(part)
    length += part.length
    return `${String(offset).padStart(10, '0')} 00000 n \n`
  })
  const table = `xref\n0 ${objects.length + 1}\n0000000000 65535 f \n${offsets.join('')}`
  const tail = `trailer << /Size ${objects.length + 1} /Root 1 0 R ${trailer} >>\nstartxref\n${length}\n%%EOF`
  return Buffer.concat([...parts, latin(table + tail)])
}

/** A stream object; packed where it says so. */
export function pdfStream(data: string | Uint8Array, dictionary = '', packs = false): Uint8Array {
  const plain = typeof data === 'string' ? latin(data) : data
  const bytes = packs ? deflateSync(plain, { level: 9 }) : plain
  const filter = packs ? '/Filter /FlateDecode' : ''
  const head = latin(`<< /Length ${bytes.length} ${filter} ${dictionary} >>\nstream\n`)
  return Buffer.concat([head, bytes, latin('\nendstream')])
}

/** A page of 100 by 80 points that draws a content; more objects from number 5 on. */
export function pdfPage(
  content: string | Uint8Array,
  {
    page = '/MediaBox [0 0 100 80]',
    resources = '',
    more = [],
    trailer = '',
  }: Readonly<{
    page?: string
    resources?: string
    more?: readonly (string | Uint8Array)[]
    trailer?: string
  }> = {},
): Uint8Array {
  return pdfFile(
    [
      '<< /Type /Catalog /Pages 2 0 R >>',
      '<< /Type /Pages /Kids [3 0 R] /Count 1 >>',
      `<< /Type /Page /Parent 2 0 R ${page} /Contents 4 0 R /Resources << ${resources} >> >>`,
      typeof content === 'string' ? pdfStream(content) : content,
      ...more,
    ],
    trailer,
  )
}
