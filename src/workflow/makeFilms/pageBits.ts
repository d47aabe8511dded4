import { SOLID } from '../../core/halftone/solid.ts'
import type { Marks } from '../../core/separation/plan.ts'
import { type Bilevel, type BitBand, rowBytesOf } from '../../formats/bilevel.ts'
import type { FilmPage } from '../../formats/filmPage.ts'
import type { Letters } from '../../formats/letters.ts'
import type { Screen } from '../../raster/films/screen.ts'
import { hasMarks, type PageLayout, STRIP_MM } from './pageLayout.ts'
import type { Screened } from './screenPlates.ts'

export type PageTools = Readonly<{
  letters: Letters
  /** A page of drawings as bits. */
  raster: (page: FilmPage, at: Readonly<{ resolutionDpi: number }>) => Bilevel
}>

/** The marks above and below the artwork as bits, drawn when they are first asked for. */
export type Strip = () => Promise<Uint8Array>

/** Draws a strip once, however many films and files want it. */
export function stripOf(
  page: () => FilmPage,
  { layout, raster }: Pick<PageTools, 'raster'> & Readonly<{ layout: PageLayout }>,
): Strip {
  let drawn: Promise<Uint8Array> | null = null
  return () => {
    drawn ??= allBits(raster(page(), { resolutionDpi: 25.4 / layout.pixelMm }))
    return drawn
  }
}

async function allBits(film: Bilevel): Promise<Uint8Array> {
  const bits = new Uint8Array(rowBytesOf(film) * film.heightPx)
  let at = 0
  for await (const band of film.bands) {
    bits.set(band.bits, at)
    at += band.bits.length
  }
  return bits
}

/**
 * A plate's page as bits: artwork, and the marks about it, at the same pixels on every plate.
 */
export function pageBits(
  { bands }: Screened,
  of: Readonly<{
    top: Strip
    bottom: Strip
    screen: Screen
    layout: PageLayout
    marks: Marks
    /** Whether the plate has tones for a step strip. */
    hasTones: boolean
  }>,
): Bilevel {
  const { layout, marks } = of
  const { widthPx, heightPx, pixelMm } = layout
  const size = { widthPx, heightPx, pixelUm: 1000 * pixelMm }
  if (!hasMarks(marks)) return { ...size, bands: bands() }
  const rowBytes = rowBytesOf(layout)
  async function* all(): AsyncGenerator<BitBand> {
    if (layout.topPx > 0) yield { rows: layout.topPx, bits: await of.top() }
    for await (const { rows, bits } of bands()) {
      const wide = new Uint8Array(rows * rowBytes)
      const artBytes = bits.length / rows
      for (let row = 0; row < rows; row++) {
        const art = bits.subarray(row * artBytes, (row + 1) * artBytes)
        wide.set(art, row * rowBytes + layout.artLeftPx / 8)
      }
      yield { rows, bits: wide }
    }
    if (layout.bottomPx === 0) return
    const bits = (await of.bottom()).slice()
    if (marks.stepStrip && of.hasTones) laySteps(bits, { layout, screen: of.screen })
    yield { rows: layout.bottomPx, bits }
  }
  return { ...size, bands: all() }
}

const STEPS = 10
const PATCH_MM = 8
const STRIP_TOP_MM = 3

/** Tints of nothing to solid in tenths, side by side, over the bits of the bottom strip. */
function laySteps(
  bits: Uint8Array,
  { layout, screen }: Readonly<{ layout: PageLayout; screen: Screen }>,
): void {
  const { widthPx, heightPx, bottomPx, pixelMm } = layout
  const tones = new Uint16Array(widthPx)
  const left = (widthPx * pixelMm - STRIP_MM) / 2
  for (let x = 0; x < widthPx; x++) {
    const step = Math.floor(((x + 0.5) * pixelMm - left) / PATCH_MM)
    if (step >= 0 && step <= STEPS) tones[x] = Math.round((step / STEPS) * SOLID)
  }
  const rowBytes = rowBytesOf({ widthPx })
  const row = new Uint8Array(rowBytes)
  const from = Math.round(STRIP_TOP_MM / pixelMm)
  for (let y = from; y < from + Math.round(PATCH_MM / pixelMm); y++) {
    screen.row(heightPx - bottomPx + y, tones, row)
    for (let at = 0; at < rowBytes; at++) {
      const place = y * rowBytes + at
      bits[place] = (bits[place] ?? 0) | (row[at] ?? 0)
    }
  }
}
