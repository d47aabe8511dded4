/**
 * Marks that are still growing, in arrays: union-find parents, extents along eight directions,
 * first and last link of their chain of axis points.
 *
 * @source union-find
 */
export type MarkTable = Readonly<{
  create: () => number
  find: (label: number) => number
  /** Takes the run from … to of row y into the mark. */
  stretch: (label: number, run: Readonly<{ y: number; from: number; to: number }>) => void
  /** The second mark becomes part of the first; its label may be used again after `forget`. */
  absorb: (keep: number, gone: number) => void
  forget: () => void
  free: (label: number) => void
  lastRow: (label: number) => number
  /** Largest extent over the eight directions, pixels. */
  lengthPx: (label: number) => number
  /** Keeps a pixel that lies further from the ground than the mark's deepest so far. */
  deepen: (label: number, pixel: DeepPixel) => void
  deepest: (label: number) => DeepPixel
  /** Squared distance of the deepest. */
  depth: (label: number) => number
  head: (label: number) => number
  tail: (label: number) => number
  setChain: (label: number, head: number, tail: number) => void
  /** Every mark that has axis points. */
  live: () => number[]
}>

/** A mark's pixel and its squared distance from the ground. */
export type DeepPixel = Readonly<{
  squared: number
  x: number
  y: number
  leakCode: number
  filmCode: number
}>

/** Directions along which extents are measured: every 22.5 degrees, so at most 2 % short. */
const TURNS = 8
/** Numbers kept of a deepest pixel. */
const DEEP = 5
const COS: readonly number[] = Array.from({ length: TURNS }, (_, at) =>
  Math.cos((Math.PI * at) / TURNS),
)
const SIN: readonly number[] = Array.from({ length: TURNS }, (_, at) =>
  Math.sin((Math.PI * at) / TURNS),
)

export function markTable(): MarkTable {
  let size = 1024
  let parent = new Int32Array(size)
  let last = new Int32Array(size)
  let chain = new Int32Array(2 * size)
  let extent = new Float32Array(2 * TURNS * size)
  let deep = new Int32Array(DEEP * size)
  let used = 0
  const spare: number[] = []
  const absorbed: number[] = []

  const grow = (): void => {
    size *= 2
    parent = stretched(parent, new Int32Array(size))
    last = stretched(last, new Int32Array(size))
    chain = stretched(chain, new Int32Array(2 * size))
    extent = stretched(extent, new Float32Array(2 * TURNS * size))
    deep = stretched(deep, new Int32Array(DEEP * size))
  }
  const deepest = (label: number): DeepPixel => {
    const [squared, x, y, leakCode, filmCode] = deep.subarray(DEEP * label)
    return { squared, x, y, leakCode, filmCode }
  }
  const deepen = (label: number, { squared, x, y, leakCode, filmCode }: DeepPixel): void => {
    if (squared > deep[DEEP * label]) deep.set([squared, x, y, leakCode, filmCode], DEEP * label)
  }

  return {
    create: () => {
      const label = spare.pop() ?? used++
      if (label >= size) grow()
      parent[label] = label
      last[label] = 0
      deep[DEEP * label] = 0
      chain[2 * label] = -1
      chain[2 * label + 1] = -1
      for (let at = 2 * TURNS * label; at < 2 * TURNS * (label + 1); at += 2) {
        extent[at] = Number.POSITIVE_INFINITY
        extent[at + 1] = Number.NEGATIVE_INFINITY
      }
      return label
    },
    find: (label) => {
      let root = label
      while (parent[root] !== root) root = parent[root]
      let step = label
      while (parent[step] !== root) {
        const after = parent[step]
        parent[step] = root
        step = after
      }
      return root
    },
    stretch: (label, { y, from, to }) => {
      last[label] = y
      for (let turn = 0; turn < TURNS; turn += 1) {
        const a = COS[turn] * from + SIN[turn] * y
        const b = COS[turn] * to + SIN[turn] * y
        const at = 2 * (TURNS * label + turn)
        extent[at] = Math.min(extent[at], a, b)
        extent[at + 1] = Math.max(extent[at + 1], a, b)
      }
    },
    absorb: (keep, gone) => {
      parent[gone] = keep
      last[keep] = Math.max(last[keep], last[gone])
      for (let at = 0; at < 2 * TURNS; at += 2) {
        const to = 2 * TURNS * keep + at
        const from = 2 * TURNS * gone + at
        extent[to] = Math.min(extent[to], extent[from])
        extent[to + 1] = Math.max(extent[to + 1], extent[from + 1])
      }
      if (deep[DEEP * gone] > deep[DEEP * keep]) deepen(keep, deepest(gone))
      chain[2 * gone] = -1
      absorbed.push(gone)
    },
    forget: () => {
      for (const label of absorbed) spare.push(label)
      absorbed.length = 0
    },
    free: (label) => {
      chain[2 * label] = -1
      spare.push(label)
    },
    lastRow: (label) => last[label],
    lengthPx: (label) => {
      let most = 0
      for (let at = 2 * TURNS * label; at < 2 * TURNS * (label + 1); at += 2) {
        most = Math.max(most, extent[at + 1] - extent[at])
      }
      return most + 1
    },
    deepen,
    deepest,
    depth: (label) => deep[DEEP * label],
    head: (label) => chain[2 * label],
    tail: (label) => chain[2 * label + 1],
    setChain: (label, head, tail) => {
      chain[2 * label] = head
      chain[2 * label + 1] = tail
    },
    live: () =>
      Array.from({ length: used }, (_, label) => label).filter((label) => chain[2 * label] >= 0),
  }
}

function stretched<T extends Int32Array | Float32Array>(from: T, to: T): T {
  to.set(from)
  return to
}
