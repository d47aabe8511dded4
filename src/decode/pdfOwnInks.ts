import type { WrappedPdfiumModule } from '@embedpdf/pdfium'
import { type PDFArray, type PDFContext, PDFDocument, PDFName } from 'pdf-lib'
import type { OwnInk } from './artwork.ts'
import { colorantNames } from './pdfInkSpaces.ts'
import { spacesOf } from './pdfInks.ts'
import { openPdfPage } from './pdfPage.ts'

/** More of them are no print of a shop. */
const MOST_INKS = 12
/** A larger file is not written anew to look at its inks. */
const MOST_BYTES = 64 * 2 ** 20
const SWATCH = 8

/**
 * The inks that a PDF names, each with what its solid looks like, as the library that draws pages
 * shows it: it is asked to draw a swatch of each.
 *
 * @returns none where there are none, and where the file cannot be rewritten
 * @source pdf32000 (8.6.6.4 Separation, 8.6.6.5 DeviceN)
 */
export async function ownInksOf(
  bytes: Uint8Array,
  library: WrappedPdfiumModule,
): Promise<readonly OwnInk[]> {
  if (bytes.length > MOST_BYTES) return []
  try {
    const document = await PDFDocument.load(bytes, { updateMetadata: false })
    const inks = namedIn(document)
    if (inks.length === 0) return []
    const swatches = drawn(document, inks)
    for (let page = document.getPageCount() - 1; page > 0; page--) document.removePage(page)
    return seen(await document.save(), swatches, library)
  } catch {
    return [] // what draws the page may read it all the same
  }
}

type Named = Readonly<{ name: string; space: PDFArray; at: number; parts: number }>

function namedIn({ context }: PDFDocument): readonly Named[] {
  const found = new Map<string, Named>()
  for (const space of spacesOf(context)) {
    const names = colorantNames(space, context)
    names.forEach((name, at) => {
      const key = name.toLowerCase()
      const isInk = key !== '' && !NO_INKS.includes(key)
      if (isInk && !found.has(key)) found.set(key, { name, space, at, parts: names.length })
    })
  }
  return [...found.values()].slice(0, MOST_INKS)
}

/** All inks together, and none: names that the standard keeps. */
const NO_INKS = ['all', 'none']

/** A first page with a swatch of each. @returns their names from left to right */
function drawn(document: PDFDocument, inks: readonly Named[]): readonly string[] {
  const page = document.insertPage(0, [SWATCH * inks.length, SWATCH])
  const context: PDFContext = document.context
  const spaces = Object.fromEntries(inks.map(({ space }, at) => [`S${at}`, space]))
  const content = inks.map(({ at, parts }, place) => {
    const shares = Array.from({ length: parts }, (_, part) => (part === at ? 1 : 0)).join(' ')
    return `/S${place} cs ${shares} scn ${SWATCH * place} 0 ${SWATCH} ${SWATCH} re f`
  })
  page.node.set(PDFName.of('Resources'), context.obj({ ColorSpace: spaces }))
  page.node.set(PDFName.of('Contents'), context.register(context.stream(content.join('\n'))))
  return inks.map(({ name }) => name)
}

function seen(
  bytes: Uint8Array,
  names: readonly string[],
  library: WrappedPdfiumModule,
): readonly OwnInk[] {
  const page = openPdfPage(library, bytes)
  if (typeof page === 'string') return []
  try {
    const widthPx = SWATCH * names.length
    const rgb = page.band({ widthPx, heightPx: SWATCH, top: 0, rows: SWATCH })
    return names.map((name, place) => {
      const at = 3 * ((SWATCH / 2) * widthPx + SWATCH * place + SWATCH / 2)
      const part = (of: number): number => (rgb[at + of] ?? 255) / 255
      return { name, srgb: [part(0), part(1), part(2)] as const }
    })
  } finally {
    page.close()
  }
}
