/** A place on a mark's medial axis, kept until the mark is whole. */
export type AxisPoint = Readonly<{
  x: number
  y: number
  leakCode: number
  filmCode: number
  widthPx: number
}>

/** Chains of axis points in one pool; a chain is named by its first link, −1 is the empty one. */
export type AxisPoints = Readonly<{
  count: () => number
  /** A new link in front of `next`; returns its name. */
  put: (next: number, point: AxisPoint) => number
  /** Sets what follows the last link of a chain. */
  link: (tail: number, next: number) => void
  /** Lets every second link go; returns the chain's new last link. */
  thin: (head: number) => number
  free: (head: number) => void
  /** Links in the chain, and the place and weakness that a tenth of them is weaker than. */
  tenth: (head: number) => Readonly<{ size: number; weak: AxisPoint }> | null
}>

/** Codes that differ by less are 0.5 % of light apart at most. */
const ALIKE = 20
/** Links that are quicker counted by their codes than put in order. */
const MANY = 20_000

export function axisPoints(): AxisPoints {
  let size = 4096
  let next = new Int32Array(size)
  let x = new Int32Array(size)
  let y = new Int32Array(size)
  let width = new Float32Array(size)
  let codes = new Uint16Array(2 * size)
  let used = 0
  let spare = -1 // freed links, chained by `next`
  let live = 0

  const grow = (): void => {
    size *= 2
    next = stretched(next, new Int32Array(size))
    x = stretched(x, new Int32Array(size))
    y = stretched(y, new Int32Array(size))
    width = stretched(width, new Float32Array(size))
    codes = stretched(codes, new Uint16Array(2 * size))
  }
  const release = (at: number): void => {
    next[at] = spare
    spare = at
    live -= 1
  }
  const point = (at: number): AxisPoint => ({
    x: x[at],
    y: y[at],
    leakCode: codes[2 * at],
    filmCode: codes[2 * at + 1],
    widthPx: width[at],
  })

  /** In reading order. */
  const placeOf = (at: number): number => y[at] * 2 ** 20 + x[at]
  /** The leak code that a tenth of so many links are above. */
  const tenthCode = (head: number, count: number): number => {
    const rank = count - 1 - Math.round(0.1 * (count - 1))
    if (count < MANY) {
      const sorted = new Uint16Array(count)
      for (let at = head, to = 0; at >= 0; at = next[at], to += 1) sorted[to] = codes[2 * at]
      return sorted.sort()[rank]
    }
    const counts = new Uint32Array(65536)
    for (let at = head; at >= 0; at = next[at]) counts[codes[2 * at]] += 1
    let code = 0
    for (let below = counts[0]; below <= rank; below += counts[code]) code += 1
    return code
  }

  return {
    count: () => live,
    put: (after, added) => {
      let at = spare
      if (at >= 0) {
        spare = next[at]
      } else {
        if (used === size) grow()
        at = used
        used += 1
      }
      live += 1
      next[at] = after
      x[at] = added.x
      y[at] = added.y
      width[at] = added.widthPx
      codes[2 * at] = added.leakCode
      codes[2 * at + 1] = added.filmCode
      return at
    },
    link: (tail, head) => {
      next[tail] = head
    },
    thin: (head) => {
      let at = head
      while (at >= 0 && next[at] >= 0) {
        const gone = next[at]
        next[at] = next[gone]
        release(gone)
        if (next[at] < 0) break
        at = next[at]
      }
      return at
    },
    free: (head) => {
      for (let at = head; at >= 0; ) {
        const after = next[at]
        release(at)
        at = after
      }
    },
    tenth: (head) => {
      let count = 0
      for (let at = head; at >= 0; at = next[at]) count += 1
      if (count === 0) return null
      const code = tenthCode(head, count)
      // of all about as weak as that, the middle one in reading order: the ring lies on the mark's body
      const places = new Float64Array(count)
      let alike = 0
      for (let at = head; at >= 0; at = next[at]) {
        if (Math.abs(codes[2 * at] - code) > ALIKE) continue
        places[alike] = placeOf(at)
        alike += 1
      }
      const middle = places.subarray(0, alike).sort()[alike >> 1]
      let weak = head
      while (placeOf(weak) !== middle) weak = next[weak]
      return { size: count, weak: { ...point(weak), leakCode: code } }
    },
  }
}

function stretched<T extends Int32Array | Float32Array | Uint16Array>(from: T, to: T): T {
  to.set(from)
  return to
}
