import { sheetOf } from '../../core/placement/boxes.ts'
import { dimensionLines } from '../../core/placement/dimensions.ts'
import { type Outline, outlineOf, silhouetteOf } from '../../core/placement/outline.ts'
import type { Box, PlacedFilm, PlacementProblem } from '../../core/placement/problem.ts'
import type { Place } from '../../formats/pagePath.ts'

/** A straight stroke of a drawing, in mm of paper from the inside top left of the frame. */
export type Segment = Readonly<{ from: Place; to: Place; penMm: number; dashed: boolean }>

/** Words with their middle at a place; on a line they have a cleared ground. */
export type DrawnWords = Readonly<{
  text: string
  /** The first of these that has room is taken. */
  at: readonly Place[]
  sizeMm: number
  bold: boolean
  cleared: boolean
}>

export type PlaceContent = Readonly<{
  segments: readonly Segment[]
  words: readonly DrawnWords[]
}>

export type PlaceDrawn = Readonly<{
  problem: PlacementProblem
  /** In the order of the problem’s films. */
  placed: readonly Omit<PlacedFilm, 'name'>[]
  /** What stands on each film: its layer’s short name, or its own. */
  names: readonly string[]
}>

const PEN = { frame: 0.6, sheet: 0.45, marks: 0.25, dimension: 0.25, hatch: 0.25, middle: 0.18 }
const HATCH_MM = 4
const ARROW_MM = 2.6
const FIGURE_MM = 4.4
const NAME_MM = 5

/**
 * Frame, sheets, marks, keep-outs and dimension lines as strokes and words.
 *
 * @param scale mm of paper for a mm of the screen
 */
export function placeContent(
  { problem, placed, names }: PlaceDrawn,
  { scale }: Readonly<{ scale: number }>,
): PlaceContent {
  const { frame, films, keepOut } = problem
  const { insideWidthMm, insideHeightMm } = frame
  const on = ({ xMm, yMm, widthMm, heightMm }: Box): Box => ({
    xMm: scale * xMm,
    yMm: scale * yMm,
    widthMm: scale * widthMm,
    heightMm: scale * heightMm,
  })
  const inside = on({ xMm: 0, yMm: 0, widthMm: insideWidthMm, heightMm: insideHeightMm })
  const lying = films.flatMap((film, at) => {
    const place = placed[at]
    if (place === undefined) return []
    const marks = film.marks === undefined ? [] : markLines(outlineOf(film, place), scale)
    return [{ sheet: on(sheetOf(film, place)), marks, name: names[at] ?? film.name }]
  })
  const lines = dimensionLines(problem, placed).map(({ from, to, lengthMm }) => ({
    from: { xMm: scale * from.xMm, yMm: scale * from.yMm },
    to: { xMm: scale * to.xMm, yMm: scale * to.yMm },
    lengthMm,
  }))
  return {
    segments: [
      ...outline(inside, PEN.frame),
      ...middleLines(inside),
      ...keepOut.flatMap((kept) => [...outline(on(kept), PEN.hatch), ...hatched(on(kept))]),
      ...lying.flatMap(({ sheet, marks }) => [...outline(sheet, PEN.sheet), ...marks]),
      ...lines.flatMap(({ from, to }) => [
        { from, to, penMm: PEN.dimension, dashed: false },
        ...arrow(from, to),
        ...arrow(to, from),
      ]),
    ],
    words: [
      ...lines.map(({ from, to, lengthMm }) => ({
        text: lengthText(lengthMm),
        at: along(from, to),
        sizeMm: FIGURE_MM,
        bold: true,
        cleared: true,
      })),
      ...lying.map(({ sheet, name }) => ({
        text: name,
        at: within(sheet),
        sizeMm: NAME_MM,
        bold: true,
        cleared: true,
      })),
    ],
  }
}

/** What is seen of the marks’ outline, dashed. */
function markLines(parts: Outline, scale: number): readonly Segment[] {
  return silhouetteOf(parts).map(({ from, to }) => ({
    from: { xMm: scale * from.xMm, yMm: scale * from.yMm },
    to: { xMm: scale * to.xMm, yMm: scale * to.yMm },
    penMm: PEN.marks,
    dashed: true,
  }))
}

/** Tenths of a millimetre, as one measures with a ruler. */
export function lengthText(mm: number): string {
  return String(Number(mm.toFixed(1)))
}

function outline(
  { xMm, yMm, widthMm, heightMm }: Box,
  penMm: number,
  dashed = false,
): readonly Segment[] {
  const corners = [
    { xMm, yMm },
    { xMm: xMm + widthMm, yMm },
    { xMm: xMm + widthMm, yMm: yMm + heightMm },
    { xMm, yMm: yMm + heightMm },
  ]
  return corners.map((from, at) => ({ from, to: corners[(at + 1) % 4] ?? from, penMm, dashed }))
}

/** The frame’s middle, which one finds with a ruler too. */
function middleLines({ widthMm, heightMm }: Box): readonly Segment[] {
  const [x, y] = [widthMm / 2, heightMm / 2]
  const pen = { penMm: PEN.middle, dashed: true }
  return [
    { from: { xMm: x, yMm: 0 }, to: { xMm: x, yMm: heightMm }, ...pen },
    { from: { xMm: 0, yMm: y }, to: { xMm: widthMm, yMm: y }, ...pen },
  ]
}

/** Strokes at 45 degrees, each cut where it leaves the box. */
function hatched({ xMm, yMm, widthMm, heightMm }: Box): readonly Segment[] {
  const count = Math.floor((widthMm + heightMm) / HATCH_MM)
  return Array.from({ length: count }, (_, at) => (at + 1) * HATCH_MM).map((sum) => ({
    from: { xMm: xMm + Math.min(sum, widthMm), yMm: yMm + Math.max(0, sum - widthMm) },
    to: { xMm: xMm + Math.max(0, sum - heightMm), yMm: yMm + Math.min(sum, heightMm) },
    penMm: PEN.hatch,
    dashed: false,
  }))
}

function arrow(at: Place, toward: Place): readonly Segment[] {
  const long = Math.hypot(toward.xMm - at.xMm, toward.yMm - at.yMm)
  const size = Math.min(ARROW_MM, long / 2) / long
  const [x, y] = [(toward.xMm - at.xMm) * size, (toward.yMm - at.yMm) * size]
  return [-0.4, 0.4].map((side) => ({
    from: at,
    to: { xMm: at.xMm + x - side * y, yMm: at.yMm + y + side * x },
    penMm: PEN.dimension,
    dashed: false,
  }))
}

const SHARES = [0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.1, 0.9]

function along(from: Place, to: Place): readonly Place[] {
  return SHARES.map((share) => ({
    xMm: from.xMm + share * (to.xMm - from.xMm),
    yMm: from.yMm + share * (to.yMm - from.yMm),
  }))
}

/** First in the middle of a sheet, below the line of the frame’s middle. */
function within({ xMm, yMm, widthMm, heightMm }: Box): readonly Place[] {
  return SHARES.flatMap((down) =>
    SHARES.map((across) => ({
      xMm: xMm + across * widthMm,
      yMm: yMm + down * heightMm,
    })),
  )
}
