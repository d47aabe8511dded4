import { MEDIA } from '../../core/film/media.ts'
import type { KnownMedium } from '../../core/film/mediumLooks.ts'
import type { Point } from '../../core/inspection/homography.ts'
import { turnToDensities } from '../../raster/photo/densities.ts'
import { grainOf } from '../../raster/photo/grain.ts'
import { laidLarge, photoPixelMm } from '../../raster/photo/laidFlat.ts'
import { type MarksSeen, marksSeen } from '../../raster/photo/marksSeen.ts'
import type { PhotoLight, Sheet } from '../../raster/photo/photoLight.ts'
import { type EdgeSpread, edgeSpreadPx } from '../../raster/photo/sharpness.ts'
import { sheetColour } from '../../raster/photo/sheetColour.ts'
import { clearOf } from './clearOf.ts'
import { expectFilm } from './expectFilm.ts'
import { type LooksLike, looksLike } from './looksLike.ts'
import { readingWarnings } from './readingWarnings.ts'
import type { SheetFound } from './sheetFound.ts'
import { type SheetAsked, sheetIn } from './sheetIn.ts'
import { transferBy } from './transfer.ts'
import { curveIn, type WedgeAsked } from './wedgeIn.ts'

/** The answer of `read`. */
export type Reading = Readonly<{
  kind: 'reading'
  widthMm: number
  heightMm: number
  pixelUm: number
  /** A pixel's density, away from the edges of marks, is right to this: a standard deviation. */
  densitySd: number
  /** What is paler or denser than this is not told. */
  densityRange: Readonly<{ low: number; high: number }>
  /** A thinner line is drawn paler than it is. */
  smallestLineUm: number
  light: Readonly<{ evenness: number }>
  /** Of the sheet in photo pixels, clockwise from the top left. */
  corners: readonly Point[]
  mat: boolean
  wedge: readonly [Point, Point] | null
  /** Its marks of 1 mm and more, and which of them are palest. */
  marks: MarksSeen &
    Readonly<{
      /** Over what length half of the clean edges go from mark to clear, beyond the photo's own blur, um. */
      edgeUm: number | null
    }>
  looksLike: LooksLike
  /** What no photo tells, asked of whoever knows the film. */
  asks: readonly string[]
  warnings: readonly string[]
}>

export type PhotoReading = Readonly<{
  reading: Reading
  /** Densities above the film's clear base. */
  map: Sheet
  /** Standard deviation of a density, away from edges. */
  sdOf: (density: number) => number
}>

export type ReadOptions = SheetAsked &
  Readonly<{
    wedge?: WedgeAsked
    /** What the marks may be made with; the usual media unless the shop has others. */
    media?: readonly KnownMedium[]
  }>

/** A line is drawn at half its contrast or better from this many spreads of an edge on (of a Gauss). */
const LINE_SPREADS = 2.355
const LEAST_LINE_PX = 1.5
/** No edge to tell by: a guess, with a warning. */
const UNKNOWN_LINE_PX = 4
const EDGE_HEIGHT = 0.35
const ASKS: readonly string[] = [
  'Is it mirrored? A film shows the same picture from both sides, so the photo cannot tell which side was up.',
  'Is it the right way up? The photo shows only how the sheet lay before the camera.',
]
/** Densities between which the standard deviation is told. */
const TOLD = { from: 0.1, to: 2, step: 0.05 }

/**
 * A photo of a film on a light table as a density map, true to size.
 *
 * @throws Failure 'wrong input' in one sentence where it is not what it should be
 */
export function readPhoto(photo: PhotoLight, options: ReadOptions): PhotoReading {
  const found = sheetIn(photo, options)
  const pixelMm = wholePixelMm(found)
  const clear = clearOf(photo, found, options.wedge?.ends ?? null)
  const wedge = curveIn(photo, { found, clear, asked: options.wedge ?? null })
  const sheet = laidLarge(photo, { view: found.view, box: found.box, pixelMm })
  const spread = edgeSpreadPx(sheet, { least: EDGE_HEIGHT })
  const middle = clear.logAt(
    found.box.xMm + found.box.widthMm / 2,
    found.box.yMm + found.box.heightMm / 2,
  )
  const transfer = transferBy(wedge?.curve ?? null, {
    light: 10 ** middle,
    grain: grainOf(sheet, {
      clearLight: 10 ** middle,
      steps: wedge?.steps ?? [],
    }),
    fieldSd: Math.max(0.006, 0.6 * clear.light.scatter),
  })
  const beyond = turnToDensities(sheet, {
    logClear: (x, y) => clear.logAt(found.box.xMm + x * pixelMm, found.box.yMm + y * pixelMm),
    densityOf: transfer.densityOf,
    highest: transfer.highest,
  })
  const seenLinePx = spread === null ? null : Math.max(LEAST_LINE_PX, LINE_SPREADS * spread.photoPx)
  const { colours } = photo
  expectFilm({
    turned: beyond,
    light: clear.light,
    colour: colours ? sheetColour(colours, { view: found.view, box: found.box, map: sheet }) : null,
    linePx: seenLinePx,
    longerPx: Math.max(sheet.widthPx, sheet.heightPx),
    highest: transfer.highest,
    isVouchedFor: wedge !== null || found.kind === 'mat',
  })
  const linePx = seenLinePx ?? UNKNOWN_LINE_PX
  const { sdOf, noiseOf, highest } = transfer
  const marks = marksSeen(sheet, { spreadPx: linePx / LINE_SPREADS, noiseOf })
  const low = lowest(beyond.clippedShare, middle)
  const reading: Reading = {
    kind: 'reading',
    widthMm: rounded(sheet.widthPx * pixelMm, 3),
    heightMm: rounded(sheet.heightPx * pixelMm, 3),
    pixelUm: 1000 * pixelMm,
    densitySd: rounded(statedSd(transfer), 3),
    densityRange: { low: rounded(low, 2), high: rounded(transfer.highest, 2) },
    smallestLineUm: Math.ceil(1000 * linePx * pixelMm),
    light: { evenness: rounded(clear.light.evenness, 3) },
    corners: found.corners,
    mat: found.kind === 'mat',
    wedge: wedge === null ? null : wedge.ends,
    marks: { ...told(marks), edgeUm: spread === null ? null : edgeUm(spread, pixelMm) },
    looksLike: looksLike(marks, { media: options.media ?? MEDIA, sdOf, highest }),
    asks: ASKS,
    warnings: readingWarnings({
      found,
      beyond,
      clear,
      wedge,
      spread,
      highest: transfer.highest,
    }),
  }
  return { reading, map: sheet, sdOf }
}

/** From 12 to 88 in 100 of an edge's height. */
function edgeUm({ photoPx, middlePx }: EdgeSpread, pixelMm: number): number {
  const own = Math.sqrt(Math.max(0, middlePx ** 2 - photoPx ** 2))
  return Math.round(1000 * LINE_SPREADS * own * pixelMm)
}

/** Figures as far as they are known. */
function told(marks: MarksSeen): MarksSeen {
  const { weakest, widthUm, density, grainShare } = marks
  return {
    ...marks,
    weakest: weakest.map((mark) => ({
      xMm: rounded(mark.xMm, 2),
      yMm: rounded(mark.yMm, 2),
      lengthMm: rounded(mark.lengthMm, 1),
      widthUm: Math.round(mark.widthUm),
      density: rounded(mark.density, 2),
    })),
    widthUm: Math.round(widthUm),
    density: density && {
      low: rounded(density.low, 2),
      middle: rounded(density.middle, 2),
      high: rounded(density.high, 2),
    },
    grainShare: rounded(grainShare, 3),
  }
}

/** So many pixels as the photo has for it, a whole number of them to the width. */
function wholePixelMm({ view, box }: SheetFound): number {
  const shares = [0.1, 0.5, 0.9]
  const sizes = shares.flatMap((u) =>
    shares.map((v) =>
      photoPixelMm(view, {
        x: box.xMm + u * box.widthMm,
        y: box.yMm + v * box.heightMm,
      }),
    ),
  )
  const mean = Math.exp(sizes.reduce((sum, size) => sum + Math.log(size), 0) / sizes.length)
  return box.widthMm / Math.max(1, Math.round(box.widthMm / mean))
}

/** The largest within the densities it is told for. */
function statedSd({ sdOf, highest }: ReturnType<typeof transferBy>): number {
  let most = sdOf(TOLD.from)
  for (
    let density = TOLD.from;
    density <= Math.min(TOLD.to, highest) + 1e-9;
    density += TOLD.step
  ) {
    most = Math.max(most, sdOf(density))
  }
  return most
}

/** Where the light is at its end a pale mark may be lost in it. */
function lowest(clippedShare: number, logClear: number): number {
  return clippedShare < 0.002 ? 0 : Math.max(0.1, logClear)
}

function rounded(value: number, digits: number): number {
  return Number(value.toFixed(digits))
}
