import { REED_WIDTHS_MM, reedAt, STEM_SHARE } from '../papers/reeds.ts'
import type { FilmLayout } from '../papers/testFilmLayout.ts'
import { type BoxMm, cellsIn, medianLight, type StripLight } from './stripLight.ts'
import { medianOf } from './wedgeProfile.ts'
import { wrongPhoto } from './wrongPhoto.ts'

/** What is looked at: the printed reeds, or the strokes drawn by hand in one of so many columns. */
export type MarksLookedAt = 'printed' | Readonly<{ column: number; of: number }>

export type MarkSeen = Readonly<{ open: number; wanted: number }>

/** One band as the photo shows it. */
export type BandSeen = Readonly<{
  /** How much of the stencil is left on its ground, against the band that has most. */
  ground: number
  /** How far marks are open, thinnest first: 0 shut … 1 as open as mesh; and from where on they print. */
  open: readonly MarkSeen[]
}>

/** A band's edges, where the card lay, are left out by so much. */
const EDGE_MM = 1.6
/** Light of open mesh changes over a strip by no more than this (judged); else a band is shut. */
const LEAST_OPEN = 0.6
/** Open mesh and ground differ by a factor of this at least. */
const LEAST_CONTRAST = Math.log(1.6)
/** Thinner reeds a fabric does not carry, and a photo does not show: they are not judged. */
const THINNEST_MM = 0.19
/**
 * A mark prints when its middle is open. Light spreads under its edges, which close by about so much
 * a side; and a skin through which four fifths of the light come is none to speak of (judged).
 */
const EDGE_CLOSES_MM = 0.07
const OPEN_SHARE = 0.8
/** Strokes by hand are of any width (judged). */
const STROKE_SHARE = 0.5
/** Reeds are as tall as this at least, as a share of the band; their feet stand so far above its edge. */
const LEAST_TALL = 0.78
const FOOT_MM = 1.9

/**
 * All bands, largest dose first.
 *
 * @throws Failure 'wrong input' where nothing in it is open, or nothing is shut
 */
export function bandsSeen(
  strip: StripLight,
  { layout, marks }: Readonly<{ layout: FilmLayout; marks: MarksLookedAt }>,
): readonly BandSeen[] {
  const { leftMm, bandsRightMm, edgesMm } = layout
  const boxes = edgesMm.slice(0, -1).map((top, at): BoxMm => {
    const bottom = edgesMm[at + 1] ?? top
    return {
      leftMm,
      rightMm: bandsRightMm,
      topMm: top + EDGE_MM,
      bottomMm: bottom - EDGE_MM,
    }
  })
  const levels = boxes.map((box) => {
    const cells = cellsIn(strip, box)
    const ground = medianLight(strip, { cells, is: 'ground' }) ?? 0
    return {
      ground,
      mark: medianLight(strip, { cells, is: 'mark' }) ?? ground,
    }
  })
  const opens = openLights(levels.map(({ ground, mark }) => Math.max(ground, mark)))
  const depths = levels.map(({ ground }, at) =>
    Math.max(0, Math.log((opens[at] ?? ground) / Math.max(1e-5, ground))),
  )
  const deepest = Math.max(...depths)
  if (deepest < LEAST_CONTRAST) {
    throw wrongPhoto(
      'Stencil and open mesh hardly differ in this photo; take it with light behind the screen and none in front of it.',
    )
  }
  const groundLeft = depths.map((depth) => depth / deepest)
  const opened = boxes.map((box, at) => {
    const of = { box, open: opens[at] ?? 1, ground: levels[at]?.ground ?? 0 }
    if ((depths[at] ?? 0) < 0.2 * deepest) return [] // no ground to see marks against
    return marks === 'printed'
      ? printedOpen(strip, { ...of, layout, mark: levels[at]?.mark ?? 0 })
      : [drawnOpen(strip, { ...of, layout, marks })]
  })
  return groundLeft.map((ground, at) => ({ ground, open: opened[at] ?? [] }))
}

/** Light of open mesh in each band: what is seen, or where all is shut a line through the others. */
function openLights(brightest: readonly number[]): readonly number[] {
  const most = Math.max(...brightest)
  const seen = brightest.flatMap((light, at) =>
    light >= LEAST_OPEN * most ? [{ at, log: Math.log(light) }] : [],
  )
  const mean = (of: (one: (typeof seen)[number]) => number): number =>
    seen.reduce((sum, one) => sum + of(one), 0) / seen.length
  const [middle, level] = [mean(({ at }) => at), mean(({ log }) => log)]
  const spread = mean(({ at }) => (at - middle) ** 2)
  const slope = spread === 0 ? 0 : mean(({ at, log }) => (at - middle) * (log - level)) / spread
  return brightest.map((light, at) =>
    light >= LEAST_OPEN * most ? light : Math.exp(level + slope * (at - middle)),
  )
}

type Of = Readonly<{
  box: BoxMm
  layout: FilmLayout
  open: number
  ground: number
}>

/** How far the reeds' upright stems are open, thinnest first, and at last the broad marks. */
function printedOpen(
  strip: StripLight,
  { box, layout, open, ground, mark }: Of & Readonly<{ mark: number }>,
): readonly MarkSeen[] {
  const { light, marks, around, blurMm } = strip
  const high = box.bottomMm - box.topMm
  const stems = REED_WIDTHS_MM.flatMap((width, number) => {
    if (width < THINNEST_MM) return []
    const { footMm } = reedAt(layout.reeds, number)
    const foot = box.bottomMm + EDGE_MM - FOOT_MM
    const reach = width / 2 + 2.5 * blurMm + 0.3
    const cells = cellsIn(strip, {
      leftMm: footMm - reach,
      rightMm: footMm + reach,
      topMm: foot - 0.9 * STEM_SHARE * LEAST_TALL * high,
      bottomMm: foot,
    })
    const beside = cells.flatMap((cell) =>
      (around.values[cell] ?? 1) < 0.001 ? [light.values[cell] ?? 0] : [],
    )
    const here = beside.length < 6 ? ground : medianOf(beside)
    let [seen, wanted] = [0, 0]
    for (const cell of cells) {
      seen += (light.values[cell] ?? 0) - here
      wanted += marks.values[cell] ?? 0
    }
    if (wanted === 0) return []
    const share = OPEN_SHARE * (1 - (2 * EDGE_CLOSES_MM) / width)
    return [{ open: seen / (open - here) / wanted, wanted: share }]
  })
  const broad = { open: (mark - ground) / (open - ground), wanted: OPEN_SHARE }
  return [...stems, broad].map((one) => ({
    ...one,
    open: Math.min(1.2, Math.max(0, one.open)),
  }))
}

/** A stroke goes down through the band: in each row its most open place, and the usual of those. */
function drawnOpen(
  strip: StripLight,
  {
    box,
    layout: { handLeftMm, rightMm },
    open,
    ground,
    marks: { column, of },
  }: Of & Readonly<{ marks: Exclude<MarksLookedAt, 'printed'> }>,
): MarkSeen {
  const { light, marks, cellMm } = strip
  const wide = (rightMm - handLeftMm) / of
  const left = handLeftMm + (column - 1) * wide
  const rows: number[] = []
  for (let topMm = box.topMm; topMm + cellMm < box.bottomMm; topMm += cellMm) {
    const cells = cellsIn(strip, {
      leftMm: left + FRAME_MM,
      rightMm: left + wide - FRAME_MM,
      topMm,
      bottomMm: topMm + 1.01 * cellMm,
    })
    const lights = cells.flatMap((cell) =>
      (marks.values[cell] ?? 1) === 0 ? [light.values[cell] ?? 0] : [],
    )
    if (lights.length > 0) rows.push(Math.max(...lights))
  }
  const share = rows.length === 0 ? 0 : (medianOf(rows) - ground) / (open - ground)
  return { open: Math.max(0, share), wanted: STROKE_SHARE }
}

/** The dashed frame round the place for drawing. */
const FRAME_MM = 0.8
