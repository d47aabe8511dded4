import { emptyRow, type ToneRow, type Tones } from './tones.ts'

/**
 * Tones with every edge moved: outward each pixel takes the darkest tone within a circle about it,
 * inward the palest. What reaches the film's rim keeps to it.
 *
 * @param reachPx how far edges move, outward where positive, to the nearest whole pixel along an
 *   axis; 0 leaves all as it is
 */
export function edgesMoved(tones: Tones, { reachPx }: Readonly<{ reachPx: number }>): Tones {
  const reach = Math.abs(reachPx)
  if (reach < 0.5) return tones
  const most = Math.floor(reach + 0.5)
  const halfWidths = Array.from({ length: most + 1 }, (_, down) =>
    Math.floor(Math.sqrt(Math.max(0, (reach + 0.5) ** 2 - down ** 2))),
  )
  const { plates, widthPx, heightPx } = tones
  // the palest of tones is the darkest of their negatives
  const flip = reachPx < 0 ? 0xffff : 0
  async function* rows(): AsyncGenerator<ToneRow> {
    const out = emptyRow(tones)
    const kept = 2 * most + 1
    const window = Array.from({ length: kept }, () =>
      Array.from({ length: plates }, () => halfWidths.map(() => new Uint16Array(widthPx))),
    )
    const scratch = new Uint16Array(widthPx)
    const finish = (y: number): void => {
      for (let plate = 0; plate < plates; plate++) {
        const into = out[plate].fill(0)
        for (let down = -most; down <= most; down++) {
          const row = y + down
          if (row < 0 || row >= heightPx) continue
          darker(into, window[row % kept][plate][Math.abs(down)])
        }
        if (flip !== 0) flipped(into, flip, into)
      }
    }
    let read = 0
    let done = 0
    for await (const row of tones.rows()) {
      for (let plate = 0; plate < plates; plate++) {
        flipped(row[plate], flip, scratch)
        halfWidths.forEach((half, down) => {
          darkestWithin(scratch, half, window[read % kept][plate][down])
        })
      }
      read += 1
      if (read > most) {
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

// Loops over pixels stand in functions of their own: within a generator they are slow.

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
