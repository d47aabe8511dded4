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

type Sums = {
  -readonly [Key in keyof Region]: Region[Key]
} & { weight: number; cube: number; parent: number }

/** Regions that hold a strong cell, row by row with joined runs. */
export function regionsOf(
  marked: Uint8Array,
  { openness, expected }: Readonly<{ openness: Plane; expected: Plane }>,
): readonly Region[] {
  const { widthPx, heightPx } = openness
  const sums: Sums[] = []
  const rootOf = (at: number): number => {
    let root = at
    while (sums[root].parent !== root) root = sums[root].parent
    sums[at].parent = root
    return root
  }
  type Run = Readonly<{ from: number; to: number; label: number }>
  let above: Run[] = []
  for (let y = 0; y < heightPx; y += 1) {
    const runs: Run[] = []
    const line = y * widthPx
    let next = 0
    for (let x = 0; x < widthPx; x += 1) {
      const code = marked[line + x]
      if (code === DIFFERENCE.none) continue
      const isOpen = code <= DIFFERENCE.openStrong
      const from = x
      while (x + 1 < widthPx && isSame(marked[line + x + 1], isOpen)) x += 1
      const label = sums.length
      const run = fresh(isOpen ? 'open' : 'shut', label)
      sums.push(run)
      addRun(run, { marked, openness, expected }, { y, from, to: x })
      while (next < above.length && above[next].to < from - 1) next += 1
      for (let k = next; k < above.length && above[k].from <= x + 1; k += 1) {
        const [a, b] = [rootOf(above[k].label), rootOf(label)]
        if (a !== b && sums[a].sign === run.sign) join(sums, { into: a, from: b })
      }
      runs.push({ from, to: x, label })
    }
    above = runs
  }
  return sums.flatMap((region, at) => {
    if (region.parent !== at || region.strong === 0) return []
    const { weight, cube, parent: _, seen, expected: due, x, y, strong, ...rest } = region
    return [
      {
        ...rest,
        strong,
        seen: seen / cube,
        expected: due / cube,
        x: x / weight,
        y: y / weight,
      },
    ]
  })
}

function isSame(code: number, isOpen: boolean): boolean {
  return code !== DIFFERENCE.none && code <= DIFFERENCE.openStrong === isOpen
}

function fresh(sign: Region['sign'], label: number): Sums {
  return {
    sign,
    pieces: 1,
    cells: 0,
    strong: 0,
    sides: 0,
    besideEdge: 0,
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
    parent: label,
  }
}

function addRun(
  sums: Sums,
  {
    marked,
    openness,
    expected,
  }: Readonly<{ marked: Uint8Array; openness: Plane; expected: Plane }>,
  { y, from, to }: Readonly<{ y: number; from: number; to: number }>,
): void {
  const { widthPx, heightPx } = openness
  const isOpen = sums.sign === 'open'
  const line = y * widthPx
  for (let x = from; x <= to; x += 1) {
    const at = line + x
    const seen = Math.min(1, openness.values[at])
    const due = expected.values[at]
    const off = Math.max(0, isOpen ? seen - due : due - seen)
    sums.amount += off
    sums.weight += off + 1e-9
    sums.x += (off + 1e-9) * (x + 0.5)
    sums.y += (off + 1e-9) * (y + 0.5)
    const cube = off * off * off
    sums.cube += cube
    sums.seen += cube * seen
    sums.expected += cube * due
    if (marked[at] === DIFFERENCE.openStrong || marked[at] === DIFFERENCE.shutStrong) {
      sums.strong += 1
    }
    const outAbove = y === 0 || !isSame(marked[at - widthPx], isOpen)
    const outBelow = y === heightPx - 1 || !isSame(marked[at + widthPx], isOpen)
    const outSides = (x === from ? 1 : 0) + (x === to ? 1 : 0)
    const out = outSides + (outAbove ? 1 : 0) + (outBelow ? 1 : 0)
    sums.sides += out
    if (out > 0 && isBesideEdge(expected, { x, y, isOpen })) sums.besideEdge += out
  }
  sums.cells += to - from + 1
  sums.left = Math.min(sums.left, from)
  sums.right = Math.max(sums.right, to + 1)
  sums.top = Math.min(sums.top, y)
  sums.bottom = Math.max(sums.bottom, y + 1)
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

function join(sums: Sums[], { into, from }: Readonly<{ into: number; from: number }>): void {
  const [a, b] = [sums[into], sums[from]]
  b.parent = into
  for (const key of [
    'cells',
    'strong',
    'sides',
    'besideEdge',
    'amount',
    'seen',
    'expected',
    'x',
    'y',
    'weight',
    'cube',
  ] as const)
    a[key] += b[key]
  a.left = Math.min(a.left, b.left)
  a.top = Math.min(a.top, b.top)
  a.right = Math.max(a.right, b.right)
  a.bottom = Math.max(a.bottom, b.bottom)
}
