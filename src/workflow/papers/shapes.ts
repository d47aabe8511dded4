import type { PageItem } from '../../formats/filmPage.ts'
import { linePath, type Path, type Place, rectanglePath } from '../../formats/pagePath.ts'

/** A place with its size on a page. */
export type Box = Place & Readonly<{ widthMm: number; heightMm: number }>

/** Straight from point to point and back to the first. */
export function polygon(points: readonly Place[]): Path {
  return [...linePath(points), { kind: 'close' }]
}

export function filledBox(box: Box): PageItem {
  return { kind: 'fill', path: rectanglePath(box) }
}

/** Clears what lies under it. */
export function clearedBox(box: Box): PageItem {
  return { kind: 'fill', path: rectanglePath(box), tintShare: 0 }
}

const CORNER = { armMm: 7, penMm: 0.5 }
const SIDE = { penMm: 0.25, dashesMm: [1.6, 2] }

/** A place kept free: four mitred corners, and dashes between them. */
export function keptFree({ xMm, yMm, widthMm, heightMm }: Box): readonly PageItem[] {
  const [right, bottom] = [xMm + widthMm, yMm + heightMm]
  const arm = (side: number): number => Math.min(CORNER.armMm, 0.36 * side)
  const [across, down] = [arm(widthMm), arm(heightMm)]
  const corners = [
    { x: xMm, y: yMm, toX: 1, toY: 1 },
    { x: right, y: yMm, toX: -1, toY: 1 },
    { x: right, y: bottom, toX: -1, toY: -1 },
    { x: xMm, y: bottom, toX: 1, toY: -1 },
  ]
  const sides = [
    [yMm, xMm + across, right - across],
    [bottom, xMm + across, right - across],
  ] as const
  const walls = [
    [xMm, yMm + down, bottom - down],
    [right, yMm + down, bottom - down],
  ] as const
  return [
    ...corners.map(({ x, y, toX, toY }) => ({
      kind: 'stroke' as const,
      widthMm: CORNER.penMm,
      path: linePath([
        { xMm: x + toX * across, yMm: y },
        { xMm: x, yMm: y },
        { xMm: x, yMm: y + toY * down },
      ]),
    })),
    ...sides.map(([y, from, to]) =>
      dashed([
        { xMm: from + 2, yMm: y },
        { xMm: to, yMm: y },
      ]),
    ),
    ...walls
      .filter(([, from, to]) => to - from > 4)
      .map(([x, from, to]) =>
        dashed([
          { xMm: x, yMm: from + 2 },
          { xMm: x, yMm: to },
        ]),
      ),
  ]
}

export function dashed(points: readonly Place[]): PageItem {
  return {
    kind: 'stroke',
    widthMm: SIDE.penMm,
    dashesMm: SIDE.dashesMm,
    path: linePath(points),
  }
}
