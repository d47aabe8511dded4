import { SOLID } from '../../core/halftone/cellThresholds.ts'
import type { Marks } from '../../core/separation/plan.ts'
import { type Bilevel, type BitBand, rowBytesOf } from '../../formats/bilevel.ts'
import type { FilmPage } from '../../formats/filmPage.ts'
import type { Letters } from '../../formats/letters.ts'
import type { Screen } from '../../raster/films/screen.ts'
import { bottomStrip, type PlateWords, topStrip } from './markItems.ts'
import { hasMarks, type PageLayout, STRIP_MM } from './pageLayout.ts'
import type { Screened } from './screenPlates.ts'

export type PageTools = Readonly<{
  letters: Letters
  /** A page of drawings as bits. */
  raster: (page: FilmPage, at: Readonly<{ resolutionDpi: number }>) => Bilevel
}>

/**
 * A plate's page as bits: artwork, and the marks about it, at the same pixels on every plate.
 */
export function pageBits(
  { bands }: Screened,
  of: Readonly<{
    words: PlateWords
    screen: Screen
    layout: PageLayout
    marks: Marks
    /** Whether the plate has tones for a step strip. */
    hasTones: boolean
    tools: PageTools
  }>,
): Bilevel {
  const { layout } = of
  const { widthPx, heightPx, pixelMm } = layout
  const pixelUm = 1000 * pixelMm
  if (!hasMarks(of.marks)) return { widthPx, heightPx, pixelUm, bands: bands() }
  const resolutionDpi = 25.4 / pixelMm
  const rowBytes = rowBytesOf(layout)
  async function* all(): AsyncGenerator<BitBand> {
    if (layout.topPx > 0) {
      const page = topStrip(of.words, { layout, marks: of.marks, letters: of.tools.letters })
      yield* of.tools.raster(page, { resolutionDpi }).bands
    }
    for await (const { rows, bits } of bands()) {
      const wide = new Uint8Array(rows * rowBytes)
      const artBytes = bits.length / rows
      for (let row = 0; row < rows; row++) {
        const art = bits.subarray(row * artBytes, (row + 1) * artBytes)
        wide.set(art, row * rowBytes + layout.artLeftPx / 8)
      }
      yield { rows, bits: wide }
    }
    if (layout.bottomPx > 0) yield* bottomBits(of, { rowBytes, resolutionDpi })
  }
  return { widthPx, heightPx, pixelUm, bands: all() }
}

type Of = Parameters<typeof pageBits>[1]

async function* bottomBits(
  { layout, marks, screen, hasTones, tools }: Of,
  { rowBytes, resolutionDpi }: Readonly<{ rowBytes: number; resolutionDpi: number }>,
): AsyncGenerator<BitBand> {
  const page = bottomStrip({ layout, marks, letters: tools.letters })
  const strip = marks.stepStrip && hasTones ? stepTones(layout) : null
  const stripBits = new Uint8Array(rowBytes)
  let y = 0
  for await (const { rows, bits } of tools.raster(page, { resolutionDpi }).bands) {
    const both = bits.slice()
    for (let row = 0; row < rows; row++, y++) {
      if (strip === null || y < strip.fromPx || y >= strip.toPx) continue
      screen.row(layout.heightPx - layout.bottomPx + y, strip.tones, stripBits)
      for (let at = 0; at < rowBytes; at++) {
        both[row * rowBytes + at] = (both[row * rowBytes + at] ?? 0) | (stripBits[at] ?? 0)
      }
    }
    yield { rows, bits: both }
  }
}

const STEPS = 10
const PATCH_MM = 8
const STRIP_TOP_MM = 3

/** Tints of nothing to solid in tenths, side by side. */
function stepTones({
  widthPx,
  pixelMm,
}: PageLayout): Readonly<{ fromPx: number; toPx: number; tones: Uint16Array }> {
  const tones = new Uint16Array(widthPx)
  const left = (widthPx * pixelMm - STRIP_MM) / 2
  for (let x = 0; x < widthPx; x++) {
    const step = Math.floor(((x + 0.5) * pixelMm - left) / PATCH_MM)
    if (step >= 0 && step <= STEPS) tones[x] = Math.round((step / STEPS) * SOLID)
  }
  const fromPx = Math.round(STRIP_TOP_MM / pixelMm)
  return { fromPx, toPx: fromPx + Math.round(PATCH_MM / pixelMm), tones }
}
