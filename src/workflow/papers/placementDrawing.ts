import { sheetOf } from '../../core/placement/boxes.ts'
import { dimensionLines } from '../../core/placement/dimensions.ts'
import type { Placement } from '../../core/placement/place.ts'
import type { Box, PlacementProblem } from '../../core/placement/problem.ts'

/** Room for dimension lines around the frame, in mm of the drawing. */
const MARGIN = 60
const TEXT = 14

/**
 * A plan at true scale, one unit a millimetre: the inside of the frame, films with their names,
 * keep-outs hatched, and from each side of each film a dimension line to the frame or the next film.
 *
 * @returns SVG; right-reading, seen from above the glass
 */
export function placementDrawing(
  problem: PlacementProblem,
  { films: placed, verdict, worst }: Placement,
): string {
  const { frame, films, keepOut } = problem
  const { insideWidthMm, insideHeightMm } = frame
  const [width, height] = [insideWidthMm + 2 * MARGIN, insideHeightMm + 2 * MARGIN]
  const said =
    verdict === 'fits' ? 'All rules are kept.' : `${worst.rule}: ${length(worst.shortMm)} short.`
  const boxes = placed.flatMap((film, at) => {
    const sheet = films[at]
    return sheet === undefined ? [] : [{ name: sheet.name, ...sheetOf(sheet, film) }]
  })
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${n(width)}mm" height="${n(height)}mm" viewBox="${-MARGIN} ${-MARGIN} ${n(width)} ${n(height)}" font-family="sans-serif" font-size="${TEXT}">`,
    `<title>${escaped(`Films inside a frame of ${length(insideWidthMm)} by ${length(insideHeightMm)}. ${said}`)}</title>`,
    '<defs><pattern id="keep-out" width="8" height="8" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><path d="M0 0V8" stroke="#000" stroke-width="1.5"/></pattern></defs>',
    `<rect x="${-MARGIN}" y="${-MARGIN}" width="${n(width)}" height="${n(height)}" fill="#fff"/>`,
    `<rect class="frame" width="${n(insideWidthMm)}" height="${n(insideHeightMm)}" fill="none" stroke="#000" stroke-width="2"/>`,
    ...keepOut.map(
      (box) => `<rect class="keep-out" ${rectangle(box)} fill="url(#keep-out)" stroke="#000"/>`,
    ),
    ...boxes.flatMap((box) => [
      `<rect class="film" ${rectangle(box)} fill="#000" fill-opacity="0.08" stroke="#000" stroke-width="1.5"/>`,
      text(box.name, { x: box.xMm + box.widthMm / 2, y: box.yMm + box.heightMm / 2 }),
    ]),
    ...dimensionLines(problem, placed).flatMap(({ from, to }) =>
      dimension({ x: from.xMm, y: from.yMm }, { x: to.xMm, y: to.yMm }),
    ),
    ...dimension({ x: 0, y: -25 }, { x: insideWidthMm, y: -25 }),
    ...dimension({ x: -25, y: 0 }, { x: -25, y: insideHeightMm }),
    text('Right-reading, seen from above the glass. ' + said, {
      x: insideWidthMm / 2,
      y: insideHeightMm + 35,
    }),
    '</svg>',
    '',
  ].join('\n')
}

type Point = Readonly<{ x: number; y: number }>

/** A line with a stroke at both ends and its length beside it. */
function dimension(from: Point, to: Point): readonly string[] {
  const isAcross = from.y === to.y
  const tick = (at: Point): string =>
    isAcross ? `M${n(at.x)} ${n(at.y - 4)}v8` : `M${n(at.x - 4)} ${n(at.y)}h8`
  const long = Math.abs(isAcross ? to.x - from.x : to.y - from.y)
  if (long === 0) return []
  const middle = { x: (from.x + to.x) / 2, y: (from.y + to.y) / 2 }
  const words = isAcross
    ? text(length(long), { x: middle.x, y: middle.y - 6 })
    : text(length(long), { x: middle.x - 6, y: middle.y }, -90)
  return [
    `<path class="dimension" d="M${n(from.x)} ${n(from.y)}L${n(to.x)} ${n(to.y)}${tick(from)}${tick(to)}" fill="none" stroke="#000" stroke-width="0.8"/>`,
    words,
  ]
}

function text(words: string, { x, y }: Point, turnDeg = 0): string {
  const turn = turnDeg === 0 ? '' : ` transform="rotate(${turnDeg} ${n(x)} ${n(y)})"`
  return `<text x="${n(x)}" y="${n(y)}" text-anchor="middle"${turn}>${escaped(words)}</text>`
}

function rectangle({ xMm, yMm, widthMm, heightMm }: Box): string {
  return `x="${n(xMm)}" y="${n(yMm)}" width="${n(widthMm)}" height="${n(heightMm)}"`
}

/** Tenths of a millimetre, as one measures with a ruler. */
function length(mm: number): string {
  return `${Number(mm.toFixed(1))} mm`
}

function n(value: number): string {
  return String(Number(value.toFixed(3)))
}

function escaped(words: string): string {
  return words
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;')
}
