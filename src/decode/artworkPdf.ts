import { Failure } from '../core/failure.ts'
import type { Artwork, ArtworkBand } from '../raster/films/artwork.ts'
import type { FilmPixels, OpenedArtwork } from './artwork.ts'
import { drawnRows } from './drawnBands.ts'
import { named } from './named.ts'
import { openPdfDrawing, type PdfDrawing } from './pdfDrawing.ts'

const MOST_BYTES = 256 * 2 ** 20

/** The first page of a PDF; its library knows no other files and no network. */
export async function openArtworkPdf(
  path: string,
  { bytes, patienceMs }: Readonly<{ bytes: Uint8Array; patienceMs: number }>,
): Promise<OpenedArtwork> {
  if (bytes.length > MOST_BYTES) {
    throw new Failure('too large', `${named(path)} has more than 256 MB; save a simpler page.`)
  }
  const drawing = await openPdfDrawing(path, { bytes, patienceMs })
  const { widthMm, heightMm, ownInks } = drawing.facts
  return {
    proportion: widthMm / heightMm,
    widthMm,
    kind: 'drawing',
    ownInks,
    statesCmyk: true,
    warnings: warningsOf(path, drawing),
    samples: async (film) => {
      const bandRows = drawnRows(path, film.widthPx)
      const asked = { ask: 'part', inks: film.inks, keepsCmyk: film.keepsCmyk } as const
      const { inks } = await drawing.ask(asked, 'parted')
      const picture = (at: number): Artwork => pictureOf(drawing, { film, bandRows, picture: at })
      if (inks === 0) return picture(0)
      const passing = film.inks.map((_, plate) => ({ plate, grey: picture(plate + 1) }))
      return { ...picture(0), passing }
    },
    close: drawing.close,
  }
}

function warningsOf(path: string, { facts }: PdfDrawing): readonly string[] {
  const { pages, missingFonts } = facts
  const warnings: readonly (readonly [boolean, string])[] = [
    [pages > 1, `has ${pages} pages; the first is used.`],
    [
      missingFonts.length > 0,
      `does not hold the letters it asks for (${missingFonts.slice(0, 3).join(', ')}), and others stand in; embed them, or turn text to outlines.`,
    ],
  ]
  return warnings.filter(([holds]) => holds).map(([, words]) => `${named(path)} ${words}`)
}

/** The page itself or what is none of the inks (0), or one of the inks as grey. */
function pictureOf(
  drawing: PdfDrawing,
  { film, bandRows, picture }: Readonly<{ film: FilmPixels; bandRows: number; picture: number }>,
): Artwork {
  const { widthPx, heightPx } = film
  async function* bands(): AsyncGenerator<ArtworkBand> {
    for (let top = 0; top < heightPx; top += bandRows) {
      const rows = Math.min(bandRows, heightPx - top)
      const at = { ask: 'band', picture, widthPx, heightPx, top, rows } as const
      const { samples } = await drawing.ask(at, 'band')
      yield { rows, samples }
    }
  }
  return { space: picture === 0 ? 'rgb' : 'grey', widthPx, heightPx, bands }
}
