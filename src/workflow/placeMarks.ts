import { areaMm2, hullOf, type Outline, type Part, type Point } from '../core/placement/outline.ts'
import { type Box, MOST_PARTS } from '../core/placement/problem.ts'
import { CELL_PLANES, pyramidLevels, TILE_SIDE } from '../raster/tiles.ts'

type Sides = Readonly<{ widthMm: number; heightMm: number }>

/** A film as its picture is cut into tiles. */
type TiledFilm = Readonly<{ widthPx: number; heightPx: number; pixelUm: number }>

/** The level of a film’s picture that is one tile: all of it, small. */
export function wholeLevel(film: TiledFilm): number {
  return pyramidLevels(film).length - 1
}

/** A film’s marks: their rectangle, and convex parts that hold them all. */
export type MarksFound = Readonly<{ box: Box; outline: Outline }>

/** Marks are parted by a grid of so many fields each way, as far as their rectangle reaches. */
const FIELDS = 6
/** Two parts become one where that adds no more than this share of ground. */
const HARDLY_MORE = 0.06

/**
 * The part of a sheet that has marks, to the cells of its smallest picture: outward, so that no
 * mark is left out. The outline is the hull of the marks of each field of a grid, neighbours drawn
 * together where hardly more ground is covered so.
 *
 * @param tile planes of the one tile of `wholeLevel`
 * @param sheet its sides as they were measured, whatever its pixels come to
 * @returns null where there are no marks, or the film is so small that it has no cells
 */
export function marksOfTile(
  tile: Uint8Array,
  { sheet, ...film }: TiledFilm & Readonly<{ sheet: Sides }>,
): MarksFound | null {
  const level = wholeLevel(film)
  if (level === 0) return null
  const cells = TILE_SIDE * TILE_SIDE
  const marks = tile.subarray(CELL_PLANES.marks * cells, (CELL_PLANES.marks + 1) * cells)
  let [left, top, right, bottom] = [TILE_SIDE, TILE_SIDE, -1, -1]
  for (let at = 0; at < cells; at++) {
    if (!marks[at]) continue
    const [x, y] = [at % TILE_SIDE, Math.floor(at / TILE_SIDE)]
    left = Math.min(left, x)
    right = Math.max(right, x)
    top = Math.min(top, y)
    bottom = Math.max(bottom, y)
  }
  if (right < 0) return null
  const cellMm = (2 ** level * film.pixelUm) / 1000
  const within = (x: number, y: number): Point => ({
    xMm: Math.min(sheet.widthMm, x * cellMm),
    yMm: Math.min(sheet.heightMm, y * cellMm),
  })
  const fields = new Map<number, Point[]>()
  const fieldOf = (value: number, low: number, high: number): number =>
    Math.floor((FIELDS * (value - low)) / (high - low + 1))
  for (let at = 0; at < cells; at++) {
    if (!marks[at]) continue
    const [x, y] = [at % TILE_SIDE, Math.floor(at / TILE_SIDE)]
    const field = FIELDS * fieldOf(y, top, bottom) + fieldOf(x, left, right)
    const points = fields.get(field) ?? []
    points.push(within(x, y), within(x + 1, y), within(x, y + 1), within(x + 1, y + 1))
    fields.set(field, points)
  }
  const [from, to] = [within(left, top), within(right + 1, bottom + 1)]
  return {
    box: {
      xMm: from.xMm,
      yMm: from.yMm,
      widthMm: to.xMm - from.xMm,
      heightMm: to.yMm - from.yMm,
    },
    outline: drawnTogether([...fields.values()].map(hullOf)),
  }
}

/** Parts joined two by two, those first that add least ground, until there are few and each more would add much. */
function drawnTogether(parts: readonly Part[]): Outline {
  let all = parts.filter((part) => part.length >= 3)
  for (;;) {
    let least: Readonly<{ joined: Part; one: Part; other: Part; more: number }> | null = null
    for (const [at, one] of all.entries()) {
      for (const other of all.slice(at + 1)) {
        const joined = hullOf([...one, ...other])
        const more = areaMm2(joined) / (areaMm2(one) + areaMm2(other)) - 1
        if (least === null || more < least.more) least = { joined, one, other, more }
      }
    }
    if (least === null || (least.more > HARDLY_MORE && all.length <= MOST_PARTS)) return all
    const { joined, one, other } = least
    all = [...all.filter((part) => part !== one && part !== other), joined]
  }
}
