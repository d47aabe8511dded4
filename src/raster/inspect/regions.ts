import { DIFFERENCE } from './differences.ts'
import type { Plane } from './plane.ts'

/** Cells of one sign that hang together, corner to corner. In cells. */
export type Region = Readonly<{
  sign: 'open' | 'shut'
  /** 1, or more where pieces were put together. */
  pieces: number
  cells: number
  strong: number
  /** Sides of cells that border on others. */
  sides: number
  /** How long its outline is, in sides of a cell. */
  outline: number
  /** Of those cells, the ones beside a mark or, for shut ones, beside ground. */
  besideEdge: number
  /** Sum of the difference from what was expected, 0 … 1 a cell. */
  amount: number
  /** Openness and expectation where the difference is greatest: weighed by its cube. */
  seen: number
  expected: number
  /** Middle, weighted by the difference; from the film's top left. */
  x: number
  y: number
  left: number
  top: number
  right: number
  bottom: number
}>

type Sums = { -readonly [Key in keyof Region]: Region[Key] } & { weight: number; cube: number }

type Views = Readonly<{ openness: Plane; expected: Plane }>

/** Added to a cell's code once it belongs to a region. */
const TAKEN = 8

/**
 * Regions that hold a strong cell, in the order of their first ones: each is filled outwards from
 * there, so that what is only weak costs nothing.
 *
 * @param marked is used up
 */
export function regionsOf(marked: Uint8Array, views: Views): readonly Region[] {
  const regions: Region[] = []
  const stack: number[] = []
  for (let at = 0; at < marked.length; at += 1) {
    const code = marked[at]
    if (code !== DIFFERENCE.openStrong && code !== DIFFERENCE.shutStrong) continue
    regions.push(regionFrom(at, { marked, views, stack }))
  }
  return regions
}

function regionFrom(
  first: number,
  { marked, views, stack }: Readonly<{ marked: Uint8Array; views: Views; stack: number[] }>,
): Region {
  const { widthPx, heightPx } = views.openness
  const isOpen = marked[first] <= DIFFERENCE.openStrong
  const sums = fresh(isOpen ? 'open' : 'shut')
  marked[first] += TAKEN
  stack.push(first)
  for (let at = stack.pop(); at !== undefined; at = stack.pop()) {
    const y = Math.floor(at / widthPx)
    const x = at - y * widthPx
    addCell(sums, { marked, views, at, x, y })
    const [left, right] = [x > 0 ? -1 : 0, x < widthPx - 1 ? 1 : 0]
    const [up, down] = [y > 0 ? -1 : 0, y < heightPx - 1 ? 1 : 0]
    for (let dy = up; dy <= down; dy += 1) {
      for (let dx = left; dx <= right; dx += 1) {
        const near = at + dy * widthPx + dx
        if (marked[near] >= TAKEN || !isSame(marked[near], isOpen)) continue
        marked[near] += TAKEN
        stack.push(near)
      }
    }
  }
  const { weight, cube, seen, expected, x, y, ...rest } = sums
  return { ...rest, seen: seen / cube, expected: expected / cube, x: x / weight, y: y / weight }
}

function isSame(code: number, isOpen: boolean): boolean {
  const own = code % TAKEN
  return own !== DIFFERENCE.none && own <= DIFFERENCE.openStrong === isOpen
}

function fresh(sign: Region['sign']): Sums {
  return {
    sign,
    pieces: 1,
    cells: 0,
    strong: 0,
    sides: 0,
    besideEdge: 0,
    outline: 0,
    amount: 0,
    seen: 0,
    expected: 0,
    x: 0,
    y: 0,
    left: Number.POSITIVE_INFINITY,
    top: Number.POSITIVE_INFINITY,
    right: 0,
    bottom: 0,
    weight: 0,
    cube: 0,
  }
}

function addCell(
  sums: Sums,
  {
    marked,
    views,
    at,
    x,
    y,
  }: Readonly<{ marked: Uint8Array; views: Views; at: number; x: number; y: number }>,
): void {
  const { openness, expected } = views
  const { widthPx, heightPx } = openness
  const isOpen = sums.sign === 'open'
  const seen = Math.min(1, openness.values[at])
  const due = expected.values[at]
  const off = Math.max(0, isOpen ? seen - due : due - seen)
  const weight = off + 1e-9
  const cube = off * off * off
  sums.cells += 1
  sums.amount += off
  sums.weight += weight
  sums.x += weight * (x + 0.5)
  sums.y += weight * (y + 0.5)
  sums.cube += cube
  sums.seen += cube * seen
  sums.expected += cube * due
  const code = marked[at] % TAKEN
  if (code === DIFFERENCE.openStrong || code === DIFFERENCE.shutStrong) sums.strong += 1
  let out = 0
  if (x === 0 || !isSame(marked[at - 1], isOpen)) out += 1
  if (x === widthPx - 1 || !isSame(marked[at + 1], isOpen)) out += 1
  if (y === 0 || !isSame(marked[at - widthPx], isOpen)) out += 1
  if (y === heightPx - 1 || !isSame(marked[at + widthPx], isOpen)) out += 1
  sums.sides += out
  if (out > 0) {
    sums.outline += outlineAt(views, { x, y, isOut: (side) => !isSame(marked[side], isOpen) })
    if (isBesideEdge(expected, { x, y, isOpen })) sums.besideEdge += out
  }
  sums.left = Math.min(sums.left, x)
  sums.right = Math.max(sums.right, x + 1)
  sums.top = Math.min(sums.top, y)
  sums.bottom = Math.max(sums.bottom, y + 1)
}

/**
 * How long the outline is that passes a cell, in sides of a cell. Each of its outer sides stands for
 * the part of it that looks the way the difference falls off there, so that a slanting outline is as
 * long as a level one.
 */
function outlineAt(
  { openness, expected }: Views,
  { x, y, isOut }: Readonly<{ x: number; y: number; isOut: (at: number) => boolean }>,
): number {
  const { widthPx, heightPx } = openness
  const off = (column: number, row: number): number => {
    const at = inside(row, heightPx) * widthPx + inside(column, widthPx)
    return openness.values[at] - expected.values[at]
  }
  let length = 0
  for (const [dx, dy] of WAYS) {
    const [column, row] = [x + dx, y + dy]
    const isBeyond = column < 0 || row < 0 || column >= widthPx || row >= heightPx
    if (!isBeyond && !isOut(row * widthPx + column)) continue
    const across = off(column, row) - off(x, y)
    const along =
      (off(x + dy, y + dx) -
        off(x - dy, y - dx) +
        off(column + dy, row + dx) -
        off(column - dy, row - dx)) /
      4
    const slope = Math.hypot(across, along)
    length += slope > 0 ? Math.abs(across) / slope : 1
  }
  return length
}

const WAYS = [
  [1, 0],
  [-1, 0],
  [0, 1],
  [0, -1],
] as const

function inside(at: number, length: number): number {
  return Math.max(0, Math.min(length - 1, at))
}

/** Within three cells lies what should be the other way. */
function isBesideEdge(
  { widthPx, heightPx, values }: Plane,
  { x, y, isOpen }: Readonly<{ x: number; y: number; isOpen: boolean }>,
): boolean {
  const reach = 3
  const [left, right] = [Math.max(0, x - reach), Math.min(widthPx - 1, x + reach)]
  const [top, bottom] = [Math.max(0, y - reach), Math.min(heightPx - 1, y + reach)]
  const other = (at: number): boolean => (isOpen ? values[at] > 0.5 : values[at] < 0.5)
  return (
    other(y * widthPx + left) ||
    other(y * widthPx + right) ||
    other(top * widthPx + x) ||
    other(bottom * widthPx + x) ||
    other(top * widthPx + left) ||
    other(bottom * widthPx + right) ||
    other(top * widthPx + right) ||
    other(bottom * widthPx + left)
  )
}
