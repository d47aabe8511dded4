import type { Artwork } from '../raster/films/artwork.ts'
import { openArtworkOpenRaster } from './artworkOpenRaster.ts'
import { openArtworkPdf } from './artworkPdf.ts'
import { openArtworkPicture } from './artworkPicture.ts'
import { openArtworkSvg } from './artworkSvg.ts'
import { type Accepted, type PictureKind, withFileOfKind } from './sourceFile.ts'

/** Artwork that was looked at and not yet decoded. */
export type OpenedArtwork = Readonly<{
  /** Width over height as it is to be seen. */
  proportion: number
  /** Its true width as the file states it; null where it states none. */
  widthMm: number | null
  /** A drawing is made at any size; a picture has the pixels that it has. */
  kind: 'drawing' | 'picture'
  warnings: readonly string[]
  /** Inks that it holds by name, which pass through where a plan names them too. */
  ownInks: readonly OwnInk[]
  /** Shares of cyan, magenta, yellow and black that it states pass through as they are. */
  statesCmyk: boolean
  /** Its samples, in no more pixels than the film has; a drawing in just as many. */
  samples: (film: FilmPixels) => Promise<Artwork>
  close: () => Promise<void>
}>

/** An ink by its name, and what its solid looks like: stored sRGB, 0 … 1. */
export type OwnInk = Readonly<{ name: string; srgb: readonly [number, number, number] }>

export type FilmPixels = Readonly<{
  widthPx: number
  heightPx: number
  /** Ink shares of CMYK as they stand, where the film's inks are those four. */
  keepsCmyk: boolean
  /** Names of the inks in the film's order: what a PDF holds of one passes through as it is. */
  inks: readonly string[]
}>

const PICTURE_INSTEAD = 'give a PNG, JPEG, TIFF, WebP, SVG, PDF or OpenRaster'

const ARTWORK: Accepted<PictureKind | 'svg' | 'pdf' | 'zip'> = {
  kinds: ['png', 'jpeg', 'webp', 'tiff', 'svg', 'pdf', 'zip'],
  refusals: {
    empty: 'is empty; copy or export it again',
    heic: 'is a HEIC or AVIF photo, which cannot be read; save it as PNG, TIFF or JPEG',
    gif: 'is a GIF, which cannot be read; save it as PNG, TIFF or JPEG',
    text: `is a text; ${PICTURE_INSTEAD}`,
    unknown: `is no artwork that can be read; ${PICTURE_INSTEAD}`,
  },
  wanted: 'a PNG, JPEG, TIFF, WebP, SVG, PDF or OpenRaster',
}

/** A few rows of a page that take longer are never done. */
const PATIENCE_MS = 60_000

/**
 * Artwork by its path: a picture, or a drawing whose edges are made at the film's own pixels. It
 * reads no other file and no network, whatever it names.
 *
 * @param patienceMs the longest that some rows of a PDF may take
 * @throws Failure 'missing file', 'unreadable file', 'too large', 'world failed'
 */
export async function openArtwork(
  path: string,
  { patienceMs = PATIENCE_MS }: Readonly<{ patienceMs?: number }> = {},
): Promise<OpenedArtwork> {
  return withFileOfKind(path, ARTWORK, async ({ kind, source }) => {
    if (kind === 'svg') return openArtworkSvg(path, await source.read(0, source.sizeBytes))
    if (kind === 'pdf') {
      return openArtworkPdf(path, { bytes: await source.read(0, source.sizeBytes), patienceMs })
    }
    if (kind === 'zip') {
      return openArtworkOpenRaster(path, await source.read(0, source.sizeBytes))
    }
    return openArtworkPicture(path, { kind, source })
  })
}
