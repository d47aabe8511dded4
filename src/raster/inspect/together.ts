import type { Region } from './regions.ts'

/**
 * Regions that lie close together and are one thing: a skin over hatching is one skin, and an edge
 * that broke on both sides of a line broke once. Holes and scratches stay apart: each is a place to
 * be spotted.
 *
 * @param gap cells between their boxes
 */
export function together(regions: readonly Region[], gap: number): readonly Region[] {
  const alone = regions.filter((region) => !isShut(region) && !isAtEdge(region))
  return [
    ...alone,
    ...joinedNear(regions.filter(isShut), gap),
    ...joinedNear(regions.filter(isAtEdge), gap),
  ]
}

/** From here on an open region is a mark's edge that broke (judged). */
const EDGE_SHARE = 0.12

function isShut({ sign }: Region): boolean {
  return sign === 'shut'
}

function isAtEdge({ sign, besideEdge, sides }: Region): boolean {
  return sign === 'open' && besideEdge > EDGE_SHARE * sides
}

function joinedNear(regions: readonly Region[], gap: number): readonly Region[] {
  let list = regions
  for (let before = -1; before !== list.length; ) {
    before = list.length
    const joined: Region[] = []
    for (const region of list) {
      const at = joined.findIndex((other) => isNear(other, region, gap))
      const near = joined[at]
      if (near === undefined) joined.push(region)
      else joined[at] = joinedRegion(near, region)
    }
    list = joined
  }
  return list
}

function isNear(a: Region, b: Region, gap: number): boolean {
  return (
    a.left <= b.right + gap &&
    b.left <= a.right + gap &&
    a.top <= b.bottom + gap &&
    b.top <= a.bottom + gap
  )
}

function joinedRegion(a: Region, b: Region): Region {
  const strong = a.strong + b.strong
  const amount = a.amount + b.amount
  const mean = (x: number, y: number, [p, q]: readonly [number, number]): number =>
    (x * p + y * q) / (p + q)
  return {
    sign: a.sign,
    pieces: a.pieces + b.pieces,
    cells: a.cells + b.cells,
    strong,
    sides: a.sides + b.sides,
    besideEdge: a.besideEdge + b.besideEdge,
    outline: a.outline + b.outline,
    amount,
    seen: mean(a.seen, b.seen, [a.amount, b.amount]),
    expected: mean(a.expected, b.expected, [a.amount, b.amount]),
    x: mean(a.x, b.x, [a.amount, b.amount]),
    y: mean(a.y, b.y, [a.amount, b.amount]),
    left: Math.min(a.left, b.left),
    top: Math.min(a.top, b.top),
    right: Math.max(a.right, b.right),
    bottom: Math.max(a.bottom, b.bottom),
  }
}
