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
type Places = Readonly<{ first: Int32Array; part: Float64Array }>

function placesOf(from: number, to: number): Places {
  const at = (place: number): number =>
    Math.min(from - 1, Math.max(0, ((place + 0.5) * from) / to - 0.5))
  return {
    first: Int32Array.from({ length: to }, (_, place) => Math.floor(at(place))),
    part: Float64Array.from({ length: to }, (_, place) => at(place) % 1),
  }
}

function blendRows(
  above: Uint16Array,
  below: Uint16Array,
  { part, into }: Readonly<{ part: number; into: Float64Array }>,
): void {
  for (let x = 0; x < into.length; x++) into[x] = above[x] + part * (below[x] - above[x])
}

function widen(row: Float64Array, { first, part }: Places, into: Uint16Array): void {
  const last = row.length - 1
  for (let x = 0; x < into.length; x++) {
    const at = first[x]
    const here = row[at]
    into[x] = here + part[x] * (row[at < last ? at + 1 : last] - here) + 0.5
  }
}
