import { type Enlarger, enlargerBytes, type WidenPlan } from '../../kernels/enlarger.ts'
import { filmRows } from '../../kernels/filmRows.ts'
import type { ToneRow, Tones } from './tones.ts'

/** Parts of the way from one pixel to the next are told in these. */
const WHOLE = 2 ** 15

/**
 * Tones at the film's own pixels: between the middles of the artwork's pixels they run evenly, in
 * 32 768 steps from nothing to solid. Artwork with just as many pixels comes as it is.
 *
 * @param enlargerOf by machine code unless told otherwise
 */
export function enlarged(
  tones: Tones,
  { widthPx, heightPx }: Readonly<{ widthPx: number; heightPx: number }>,
  enlargerOf: typeof kernelEnlarger = kernelEnlarger,
): Tones {
  if (tones.widthPx === widthPx && tones.heightPx === heightPx) return tones
  const { plates } = tones
  const plan: WidenPlan = { fromPx: tones.widthPx, ...placesOf(tones.widthPx, widthPx) }
  const downs = placesOf(tones.heightPx, heightPx)
  async function* rows(from = 0): AsyncGenerator<ToneRow> {
    const begin = downs.lefts[Math.min(from, heightPx - 1)]
    const source = tones.rows(begin)[Symbol.asyncIterator]()
    const enlarger = enlargerOf(plan, plates)
    const out: Uint16Array[] = []
    let lowerAt = begin - 1
    try {
      for (let y = from; y < heightPx; y++) {
        const first = downs.lefts[y]
        while (lowerAt < Math.min(first + 1, tones.heightPx - 1)) {
          const { value, done } = await source.next()
          if (done === true) throw new RangeError(`tones: expected ${tones.heightPx} rows`)
          value.forEach((row, plate) => enlarger.take(plate, row))
          lowerAt += 1
        }
        const part = lowerAt === first ? null : downs.parts[y]
        for (let plate = 0; plate < plates; plate++) out[plate] = enlarger.row(plate, part)
        yield out
      }
    } finally {
      await source.return?.()
    }
  }
  return { plates, widthPx, heightPx, rows }
}

function kernelEnlarger(plan: WidenPlan, plates: number): Enlarger {
  const enlarger = filmRows({ roomBytes: enlargerBytes(plan, plates) }).enlarger(plan, plates)
  if (enlarger === null) throw new RangeError('enlarger: expected the room it was given')
  return enlarger
}

/** For each place of the larger side the source pixel before it, and how far it is on to the next. */
function placesOf(from: number, to: number): Pick<WidenPlan, 'lefts' | 'parts'> {
  const at = (place: number): number =>
    Math.min(from - 1, Math.max(0, ((place + 0.5) * from) / to - 0.5))
  return {
    lefts: Int32Array.from({ length: to }, (_, place) => Math.floor(at(place))),
    parts: Int16Array.from({ length: to }, (_, place) =>
      Math.min(WHOLE - 1, Math.round((at(place) % 1) * WHOLE)),
    ),
  }
}
