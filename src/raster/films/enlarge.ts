import { emptyRow, type ToneRow, type Tones } from './tones.ts'

/**
 * Tones at the film's own pixels: between the middles of the artwork's pixels they run evenly.
 * Artwork with just as many pixels comes as it is.
 */
export function enlarged(
  tones: Tones,
  { widthPx, heightPx }: Readonly<{ widthPx: number; heightPx: number }>,
): Tones {
  if (tones.widthPx === widthPx && tones.heightPx === heightPx) return tones
  const { plates } = tones
  const columns = placesOf(tones.widthPx, widthPx)
  const downs = placesOf(tones.heightPx, heightPx)
  async function* rows(): AsyncGenerator<ToneRow> {
    const source = tones.rows()[Symbol.asyncIterator]()
    const blend = new Float64Array(tones.widthPx)
    const out = emptyRow({ plates, widthPx })
    let [upper, lower] = [emptyRow(tones), emptyRow(tones)]
    let lowerAt = -1
    try {
      for (let y = 0; y < heightPx; y++) {
        const first = downs.first[y]
        while (lowerAt < Math.min(first + 1, tones.heightPx - 1)) {
          const { value, done } = await source.next()
          if (done === true) throw new RangeError(`tones: expected ${tones.heightPx} rows`)
          ;[upper, lower] = [lower, upper]
          value.forEach((row, plate) => lower[plate].set(row))
          lowerAt += 1
        }
        for (let plate = 0; plate < plates; plate++) {
          const above = lowerAt === first ? lower[plate] : upper[plate]
          blendRows(above, lower[plate], { part: downs.part[y], into: blend })
          widen(blend, columns, out[plate])
        }
        yield out
      }
    } finally {
      await source.return?.()
    }
  }
  return { plates, widthPx, heightPx, rows }
}

/** For each place of the larger side the source pixel before it, and how far it is on to the next. */
type Places = Readonly<{
  first: Int32Array
  part: Float64Array
  /** The first place at or beyond the middle of each source pixel, and the end. */
  starts: Int32Array
  /** From one place to the next, in source pixels. */
  step: number
}>

function placesOf(from: number, to: number): Places {
  const at = (place: number): number =>
    Math.min(from - 1, Math.max(0, ((place + 0.5) * from) / to - 0.5))
  return {
    first: Int32Array.from({ length: to }, (_, place) => Math.floor(at(place))),
    part: Float64Array.from({ length: to }, (_, place) => at(place) % 1),
    starts: Int32Array.from({ length: from + 1 }, (_, source) =>
      source === from
        ? to
        : Math.min(to, Math.max(0, Math.ceil(((source + 0.5) * to) / from - 0.5))),
    ),
    step: from / to,
  }
}

function blendRows(
  above: Uint16Array,
  below: Uint16Array,
  { part, into }: Readonly<{ part: number; into: Float64Array }>,
): void {
  for (let x = 0; x < into.length; x++) into[x] = above[x] + part * (below[x] - above[x])
}

/** From one source pixel's middle to the next tones run straight; at the rims they stay. */
function widen(row: Float64Array, { starts, step }: Places, into: Uint16Array): void {
  const last = row.length - 1
  into.fill(row[0] + 0.5, 0, starts[0])
  for (let at = 0; at < last; at++) {
    const [start, end] = [starts[at], starts[at + 1]]
    const rise = row[at + 1] - row[at]
    const each = rise * step
    let tone = row[at] + 0.5 + rise * ((start + 0.5) * step - 0.5 - at)
    for (let x = start; x < end; x++) {
      into[x] = tone
      tone += each
    }
  }
  into.fill(row[last] + 0.5, starts[last])
}
