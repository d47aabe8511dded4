import { emptyRow, type ToneRow, type Tones } from './tones.ts'

/**
 * Tones with every edge moved: outward each pixel takes the darkest tone within a circle about it,
 * inward the palest. What reaches the film's rim keeps to it.
 *
 * @param reachPx how far edges move, outward where positive, to the nearest whole pixel along an
 *   axis; 0 leaves all as it is. One for all plates, or one for each
 */
export function edgesMoved(
  tones: Tones,
  { reachPx }: Readonly<{ reachPx: number | readonly number[] }>,
): Tones {
  const { plates, widthPx, heightPx } = tones
  const moves = Array.from({ length: plates }, (_, plate) =>
    moveOf(typeof reachPx === 'number' ? reachPx : reachPx[plate]),
  )
  const most = Math.max(...moves.map((move) => move.most))
  if (most === 0) return tones
  async function* rows(from = 0): AsyncGenerator<ToneRow> {
    const out = emptyRow(tones)
    const kept = 2 * most + 1
    const window = Array.from({ length: kept }, () =>
      Array.from({ length: plates }, () => keptRow(widthPx)),
    )
    const edges = new Int32Array(widthPx + 1)
    const finish = (y: number): void => {
      for (let plate = 0; plate < plates; plate++) {
        const into = out[plate]
        const near: Near[] = []
        const { most: own, halfWidths, flip } = moves[plate]
        for (let down = Math.max(-own, -y); down <= Math.min(own, heightPx - 1 - y); down++) {
          near.push({
            row: window[(y + down) % kept][plate],
            half: halfWidths[Math.abs(down)],
            down: Math.abs(down),
          })
        }
        if (near.every(({ row }) => row.runs >= 0)) spreadRuns(near, { edges, into })
        else spreadTones(near, into)
        if (flip !== 0) flipped(into, flip, into)
      }
    }
    let read = Math.max(0, from - most)
    let done = from
    for await (const row of tones.rows(read)) {
      for (let plate = 0; plate < plates; plate++) {
        keep(row[plate], moves[plate].flip, window[read % kept][plate])
      }
      read += 1
      if (read > done + most) {
        finish(done)
        done += 1
        yield out
      }
    }
    for (; done < heightPx; done++) {
      finish(done)
      yield out
    }
  }
  return { plates, widthPx, heightPx, rows }
}

type Move = Readonly<{ most: number; halfWidths: readonly number[]; flip: number }>

/** How far to look above and below, how far to the sides there, and whether for the palest. */
function moveOf(reachPx: number): Move {
  const reach = Math.abs(reachPx)
  const most = Math.floor(reach + 0.5)
  return {
    most,
    halfWidths: Array.from({ length: most + 1 }, (_, down) =>
      most === 0 ? 0 : Math.floor(Math.sqrt(Math.max(0, (reach + 0.5) ** 2 - down ** 2))),
    ),
    // the palest of tones is the darkest of their negatives
    flip: reachPx < 0 && most > 0 ? 0xffff : 0,
  }
}

/** A row of one plate that is looked back at. */
type KeptRow = {
  tones: Uint16Array
  /** Where solid begins and ends, in turn, and how many times; −1 where there are tones between. */
  ends: Int32Array
  runs: number
  /** The row widened by the half widths of rows so far above or below, where that was asked for. */
  widened: (Uint16Array | undefined)[]
  isWidened: boolean[]
}

type Near = Readonly<{ row: KeptRow; half: number; down: number }>

function keptRow(widthPx: number): KeptRow {
  return {
    tones: new Uint16Array(widthPx),
    ends: new Int32Array(widthPx + 2),
    runs: 0,
    widened: [],
    isWidened: [],
  }
}

const SOLID = 0xffff

// Loops over pixels stand in functions of their own: within a generator they are slow.

function keep(row: Uint16Array, flip: number, into: KeptRow): void {
  flipped(row, flip, into.tones)
  into.isWidened.fill(false)
  into.runs = runsOf(into.tones, into.ends)
}

/** @returns how many runs of solid, or −1 where a tone is neither nothing nor solid */
function runsOf(row: Uint16Array, ends: Int32Array): number {
  let [count, before] = [0, 0]
  for (let x = 0; x < row.length; x++) {
    const tone = row[x]
    if (tone === before) continue
    if (tone !== 0 && tone !== SOLID) return -1
    ends[count++] = x
    before = tone
  }
  if (before === SOLID) ends[count++] = row.length
  return count / 2
}

/** Rows of solid and nothing: each run reaches as far as the circle is wide there. */
function spreadRuns(
  near: readonly Near[],
  { edges, into }: Readonly<{ edges: Int32Array; into: Uint16Array }>,
): void {
  const width = into.length
  let all = 0
  for (const { row, half } of near) {
    const { ends, runs } = row
    if (runs > 0 && all === 0) edges.fill(0)
    all += runs
    for (let run = 0; run < 2 * runs; run += 2) {
      const [from, to] = [ends[run] - half, ends[run + 1] + half]
      edges[from < 0 ? 0 : from] += 1
      edges[to > width ? width : to] -= 1
    }
  }
  if (all === 0) {
    into.fill(0)
    return
  }
  let over = 0
  for (let x = 0; x < width; x++) {
    over += edges[x]
    into[x] = over > 0 ? SOLID : 0
  }
}

/** Rows with tones between: the darkest within the circle. */
function spreadTones(near: readonly Near[], into: Uint16Array): void {
  into.fill(0)
  for (const { row, half, down } of near) {
    const widened = (row.widened[down] ??= new Uint16Array(row.tones.length))
    if (row.isWidened[down] !== true) {
      darkestWithin(row.tones, half, widened)
      row.isWidened[down] = true
    }
    darker(into, widened)
  }
}

function flipped(row: Uint16Array, flip: number, into: Uint16Array): void {
  for (let x = 0; x < into.length; x++) into[x] = row[x] ^ flip
}

function darker(into: Uint16Array, other: Uint16Array): void {
  for (let x = 0; x < into.length; x++) if (other[x] > into[x]) into[x] = other[x]
}

/**
 * The greatest value from `half` places before each place to as many after it: in blocks as long as
 * the window, greatest so far from either end.
 *
 * @source van-herk
 */
function darkestWithin(row: Uint16Array, half: number, into: Uint16Array): void {
  const width = row.length
  const first = row[0]
  let isFlat = true
  for (let x = 1; x < width && isFlat; x++) isFlat = row[x] === first
  if (isFlat || half === 0) {
    into.set(row)
    return
  }
  const block = 2 * half + 1
  const length = width + 2 * half
  const from = new Uint16Array(length)
  const to = new Uint16Array(length)
  from.set(row, half)
  to.set(row, half)
  for (let start = 0; start < length; start += block) {
    const end = Math.min(length, start + block)
    for (let place = start + 1; place < end; place++) {
      if (from[place - 1] > from[place]) from[place] = from[place - 1]
    }
    for (let place = end - 2; place >= start; place--) {
      if (to[place + 1] > to[place]) to[place] = to[place + 1]
    }
  }
  for (let x = 0; x < width; x++) {
    const other = from[x + block - 1]
    into[x] = to[x] > other ? to[x] : other
  }
}
