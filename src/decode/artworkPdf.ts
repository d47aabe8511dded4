import { Failure } from '../core/failure.ts'
import type { Artwork } from '../raster/films/artwork.ts'
import type { FilmPixels, OpenedArtwork } from './artwork.ts'
import { drawnRows } from './drawnBands.ts'
import { named } from './named.ts'
import { openPdfPage, type PdfPage, startPdfLibrary } from './pdfPage.ts'
import { unreadable } from './sourceFile.ts'

const MOST_BYTES = 256 * 2 ** 20
const PROCESS = [0, 1, 2, 3] as const

/** The first page of a PDF; its library knows no other files and no network. */
export async function openArtworkPdf(path: string, bytes: Uint8Array): Promise<OpenedArtwork> {
  if (bytes.length > MOST_BYTES) {
    throw new Failure('too large', `${named(path)} has more than 256 MB; save a simpler page.`)
  }
  const library = await startPdfLibrary()
  const open: PdfPage[] = []
  const pageOf = (pdf: Uint8Array): PdfPage => {
    const page = openPdfPage(library, pdf)
    if (typeof page === 'string') throw unreadable(path, page)
    open.push(page)
    return page
  }
  const page = pageOf(bytes)
  return {
    proportion: page.widthMm / page.heightMm,
    widthMm: page.widthMm,
    kind: 'drawing',
    warnings: page.pages > 1 ? [`${named(path)} has ${page.pages} pages; the first is used.`] : [],
    samples: async (film) => {
      const bandRows = drawnRows(path, film.widthPx)
      const size = { widthPx: film.widthPx, heightPx: film.heightPx, bandRows }
      const parted = await partedInks(bytes, film).catch((cause: unknown) => {
        throw unreadable(path, 'has inks that cannot be told apart; export it again', cause)
      })
      if (parted === null) return page.artwork(size)
      return {
        ...pageOf(parted.rest).artwork(size),
        passing: parted.inks.map((pdf, plate) => ({
          plate,
          grey: greyOf(pageOf(pdf).artwork(size)),
        })),
      }
    },
    close: () => {
      for (const one of open) one.close()
      return Promise.resolve()
    },
  }
}

type Parted = Readonly<{ rest: Uint8Array; inks: readonly Uint8Array[] }>

/** One PDF for each ink and one for what is none of them; null where no ink passes through. */
async function partedInks(bytes: Uint8Array, film: FilmPixels): Promise<Parted | null> {
  const { hasInks, inkOfPdf } = await import('./pdfInks.ts')
  const inks = film.inks.map((name) => name.toLowerCase())
  const cmyk = film.keepsCmyk ? PROCESS : null
  if (cmyk === null && !(await hasInks(bytes, inks))) return null
  const rest = await inkOfPdf(bytes, { inks, drawn: null, cmyk })
  const parted: Uint8Array[] = []
  for (const drawn of inks.keys()) parted.push(await inkOfPdf(bytes, { inks, drawn, cmyk }))
  return { rest, inks: parted }
}

/** One of the three samples of a picture that is grey. */
function greyOf(artwork: Artwork): Artwork {
  async function* bands(): AsyncGenerator<Readonly<{ rows: number; samples: Uint8Array }>> {
    for await (const { rows, samples } of artwork.bands()) {
      yield { rows, samples: samples.filter((_, at) => at % 3 === 0) }
    }
  }
  return { ...artwork, space: 'grey', bands }
}
