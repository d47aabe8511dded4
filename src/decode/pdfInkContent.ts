import { decodePDFRawStream, PDFName, PDFRawStream } from 'pdf-lib'
import { type InkTarget, OWN_SPACES } from './pdfInkSpaces.ts'

/** A drawing's operators with the colours that they name themselves made those of the target. */
export function rewrittenContent(
  stream: PDFRawStream,
  target: InkTarget,
  { startsPage }: Readonly<{ startsPage: boolean }>,
): PDFRawStream {
  const plain = Buffer.from(decodePDFRawStream(stream).decode()).toString('latin1')
  // a page begins with black, which is none of the inks
  const begun = startsPage && target.drawn !== null ? '1 g 1 G\n' : ''
  const text = begun + rewritten(plain, target)
  const dict = stream.dict.clone(stream.dict.context)
  dict.delete(PDFName.of('Filter'))
  dict.delete(PDFName.of('DecodeParms'))
  return PDFRawStream.of(dict, Uint8Array.from(Buffer.from(text, 'latin1')))
}

/** Spaces, a comment, a string in brackets of either kind, a dictionary's brackets, or a word. */
const PIECE =
  /[\s\0]+|%[^\r\n]*|\((?:[^()\\]|\\[\s\S]|\((?:[^()\\]|\\[\s\S]|\([^()]*\))*\))*\)|<<|>>|<[^<>]*>|[[\]{}]|\/?[^\s\0()<>[\]{}/%]+|[\s\S]/g

const IMAGE_DATA = /\bID[\s\S]*?\sEI\b/g

function rewritten(content: string, target: InkTarget): string {
  // the bytes of inline pictures are no operators
  const parts: string[] = []
  let from = 0
  for (const image of content.matchAll(IMAGE_DATA)) {
    parts.push(operatorsOf(content.slice(from, image.index), target), image[0])
    from = image.index + image[0].length
  }
  parts.push(operatorsOf(content.slice(from), target))
  return parts.join('')
}

function operatorsOf(content: string, target: InkTarget): string {
  const done: string[] = []
  let operands: string[] = []
  for (const [piece] of content.matchAll(PIECE)) {
    if (!/^[A-Za-z'"][A-Za-z0-9*'"]*$/.test(piece) || /^(true|false|null)$/.test(piece)) {
      operands.push(piece)
      continue
    }
    const values = operands.map((one) => one.trim()).filter((one) => one !== '')
    done.push(replaced(piece, values, target) ?? operands.join('') + piece)
    operands = []
  }
  return done.join('') + operands.join('')
}

/** What an operator with its operands becomes; null where it stays. */
function replaced(
  operator: string,
  values: readonly string[],
  { drawn, cmyk }: InkTarget,
): string | null {
  const stroke = /^[A-Z]/.test(operator)
  const grey = (value: number): string => `\n${value} ${stroke ? 'G' : 'g'}`
  switch (operator) {
    case 'k':
    case 'K': {
      if (cmyk === null) return drawn === null ? null : grey(1)
      const at = drawn === null ? -1 : cmyk.indexOf(drawn)
      return grey(at < 0 ? 1 : 1 - Number(values.at(at - 4)))
    }
    case 'g':
    case 'G':
    case 'rg':
    case 'RG':
      return drawn === null ? null : grey(1)
    case 'cs':
    case 'CS': {
      const device = (values.at(-1) ?? '').slice(1)
      const own = Object.entries(OWN_SPACES).find(([name]) => name === device)?.[1]
      const changes = drawn !== null || (device === 'DeviceCMYK' && cmyk !== null)
      return own === undefined || !changes ? null : `\n/${own} ${operator}`
    }
    default:
      return null
  }
}
