import { readFile } from 'node:fs/promises'
import { Failure } from '../core/failure.ts'
import { type Bilevel, rowBytesOf } from '../formats/bilevel.ts'
import type { Resolution } from '../formats/resolution.ts'
import type { FilmBand } from '../raster/film.ts'
import { named } from './named.ts'
import { openPdfDrawing, type PdfDrawing } from './pdfDrawing.ts'
import { unreadable } from './sourceFile.ts'
import { type FileSpool, openSpool } from './spool.ts'

/** A page of a film that we made, in its own pixels: 1 for black. */
export type PdfFilm = Readonly<{
  widthPx: number
  heightPx: number
  stated: Resolution
  warnings: readonly string[]
  bands: () => AsyncGenerator<FilmBand>
  close: () => Promise<void>
}>

const MADE_BY = 'Yellowroom'
const MOST_BYTES = 256 * 2 ** 20
/** The library reckons in 16 bits of whole pixels, half of which lie on the other side of 0. */
const MOST_SIDE_PX = 30_000
/** Pixels of a band while it is drawn, at 4 bytes. */
const DRAWN_PX = 2 ** 24
const SAMPLES = 2 ** 20
const PATIENCE_MS = 120_000
/** Of a page that is all drawing, unless told otherwise. */
const DRAWN_DPI = 720

const POINTS_PER_INCH = 72
const MM_PER_INCH = 25.4

/**
 * The first page of a PDF that we made, pixel for pixel as its picture lies in the file; what is drawn
 * on it is black where a pixel's middle is.
 *
 * @param givenDpi for a page without a picture
 * @throws Failure 'unreadable file' for another's PDF, 'too large', 'world failed'
 */
export async function openPdfFilm(
  path: string,
  { givenDpi }: Readonly<{ givenDpi: number | undefined }>,
): Promise<PdfFilm> {
  const bytes = await readFile(path)
  if (bytes.length > MOST_BYTES) throw tooLarge(path, 'more than 256 MB')
  const drawing = await openPdfDrawing(path, { bytes, patienceMs: PATIENCE_MS })
  try {
    const { producer, pages, widthMm, heightMm } = drawing.facts
    if (producer !== MADE_BY) {
      const what = 'is a PDF that was not made here, and those are not read as films'
      throw unreadable(path, `${what}; export the page as PNG or TIFF`)
    }
    const dpi = dpiOf(drawing) ?? givenDpi ?? DRAWN_DPI
    const pixels = (lengthMm: number): number =>
      Math.max(1, Math.round((lengthMm / MM_PER_INCH) * dpi))
    const size = { widthPx: pixels(widthMm), heightPx: pixels(heightMm) }
    if (Math.max(size.widthPx, size.heightPx) > MOST_SIDE_PX) {
      throw tooLarge(path, `${size.widthPx} x ${size.heightPx} pixels`)
    }
    const spool = await openSpool()
    try {
      await spoolPage(drawing, { ...size, dpi, spool })
    } catch (error) {
      await spool.close()
      throw error
    }
    return {
      ...size,
      stated: { horizontalPerMm: dpi / MM_PER_INCH, verticalPerMm: dpi / MM_PER_INCH },
      warnings: pages > 1 ? [`${named(path)} holds ${pages} pages; the first is read.`] : [],
      bands: () => samplesOf(spool, size),
      close: spool.close,
    }
  } finally {
    await drawing.close()
  }
}

/** The library reckons it in 32 bits: a whole hundredth is meant where one is that near. */
function dpiOf({ facts }: PdfDrawing): number | null {
  const { pictureDpi } = facts
  if (pictureDpi === null) return null
  const whole = Math.round(100 * pictureDpi) / 100
  return Math.abs(whole / pictureDpi - 1) < 2e-5 ? whole : pictureDpi
}

type Size = Pick<Bilevel, 'widthPx' | 'heightPx'>

async function spoolPage(
  drawing: PdfDrawing,
  { widthPx, heightPx, dpi, spool }: Size & Readonly<{ dpi: number; spool: FileSpool }>,
): Promise<void> {
  const bandRows = Math.max(1, Math.floor(DRAWN_PX / widthPx))
  const rowBytes = rowBytesOf({ widthPx })
  const at = { ask: 'band', picture: 0, widthPx, heightPx } as const
  for (let top = 0; top < heightPx; top += bandRows) {
    const rows = Math.min(bandRows, heightPx - top)
    const asked = { ...at, top, rows, pixelsPerPoint: dpi / POINTS_PER_INCH }
    const { samples } = await drawing.ask(asked, 'band')
    const bits = new Uint8Array(rows * rowBytes)
    for (let row = 0, from = 0; row < rows; row++) {
      for (let x = 0; x < widthPx; x++, from += 3) {
        if ((samples[from] ?? 0) >= 128) continue
        const byte = row * rowBytes + (x >> 3)
        bits[byte] = (bits[byte] ?? 0) | (0x80 >> (x & 7))
      }
    }
    await spool.write(bits)
  }
}

async function* samplesOf(spool: FileSpool, { widthPx, heightPx }: Size): AsyncGenerator<FilmBand> {
  const rowBytes = rowBytesOf({ widthPx })
  const most = Math.min(heightPx, Math.max(1, Math.floor(SAMPLES / widthPx)))
  const samples = new Uint8Array(most * widthPx)
  const row = new Uint8Array(rowBytes)
  let [top, rows, filled] = [0, 0, 0]
  for await (const part of spool.bands()) {
    for (let at = 0; at < part.length; ) {
      const taken = Math.min(rowBytes - filled, part.length - at)
      row.set(part.subarray(at, at + taken), filled)
      at += taken
      filled += taken
      if (filled < rowBytes) break
      filled = 0
      const start = rows * widthPx
      for (let x = 0; x < widthPx; x++) {
        samples[start + x] = ((row[x >> 3] ?? 0) >> (7 - (x & 7))) & 1
      }
      rows += 1
      if (rows < most && top + rows < heightPx) continue
      yield { top, rows, samples: samples.subarray(0, rows * widthPx) }
      top += rows
      rows = 0
    }
  }
}

function tooLarge(path: string, what: string): Failure {
  const most = `at most 256 MB and ${MOST_SIDE_PX} pixels a side are read from a PDF`
  return new Failure('too large', `${named(path)} has ${what}; ${most}; give its TIFF instead.`)
}
