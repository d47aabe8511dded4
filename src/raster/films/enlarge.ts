import { type Enlarger, enlargerBytes, type WidenPlan } from '../../kernels/enlarger.ts'
import { filmRows } from '../../kernels/filmRows.ts'
import type { ToneRow, Tones } from './tones.ts'

/** Parts of the way from one pixel to the next are told in these. */
const WHOLE = 2 ** 15

/** What enlarged tones are made of: where they lie between the artwork's pixels, and between its rows. */
export type Enlargement = Readonly<{
  source: Tones
  plan: WidenPlan
  downs: Pick<WidenPlan, 'lefts' | 'parts'>
}>

const ENLARGED = new WeakMap<Tones, Enlargement>()

/** What these very tones were enlarged from, if they were. */
export function enlargementOf(tones: Tones): Enlargement | null {
  return ENLARGED.get(tones) ?? null
}

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
  // by hand, as a generator waits several turns for each row
  const rows = (from = 0): AsyncIterable<ToneRow> => ({
    [Symbol.asyncIterator]: () => {
      const begin = downs.lefts[Math.min(from, heightPx - 1)]
      const source = tones.rows(begin)[Symbol.asyncIterator]()
      const enlarger = enlargerOf(plan, plates)
      const out: Uint16Array[] = []
      let [y, lowerAt] = [from, begin - 1]
      const lacking = (): number => Math.min(downs.lefts[y] + 1, tones.heightPx - 1) - lowerAt
      const row = (): IteratorResult<ToneRow, undefined> => {
        const part = lowerAt === downs.lefts[y] ? null : downs.parts[y]
        for (let plate = 0; plate < plates; plate++) out[plate] = enlarger.row(plate, part)
        y += 1
        return { done: false, value: out }
      }
      const rowBelow = async (): Promise<IteratorResult<ToneRow, undefined>> => {
        while (lacking() > 0) {
          const { value, done } = await source.next()
          if (done === true) throw new RangeError(`tones: expected ${tones.heightPx} rows`)
          value.forEach((row, plate) => enlarger.take(plate, row))
          lowerAt += 1
        }
        return row()
      }
      const end = async (): Promise<IteratorResult<ToneRow, undefined>> => {
        await source.return?.()
        return { done: true, value: undefined }
      }
      const next = (): Promise<IteratorResult<ToneRow, undefined>> => {
        if (y >= heightPx) return end()
        return lacking() > 0 ? rowBelow() : Promise.resolve(row())
      }
      return { next, return: end }
    },
  })
  const made: Tones = { plates, widthPx, heightPx, rows }
  ENLARGED.set(made, { source: tones, plan, downs })
  return made
}

function kernelEnlarger(plan: WidenPlan, plates: number): Enlarger {
  const enlarger = filmRows({ roomBytes: enlargerBytes(plan, plates) }).enlarger(plan, plates)
  if (enlarger === null) throw new RangeError('enlarger: expected the room it was given')
  return enlarger
}

/** For each place of the larger side the source pixel before it, and how far it is on to the next. */
function placesOf(from: number, to: number): Pick<WidenPlan, 'lefts' | 'parts'> {
  const lefts = new Int32Array(to)
  const parts = new Int16Array(to)
  for (let place = 0; place < to; place++) {
    const at = Math.min(from - 1, Math.max(0, ((place + 0.5) * from) / to - 0.5))
    const left = Math.floor(at)
    lefts[place] = left
    parts[place] = Math.min(WHOLE - 1, Math.round((at - left) * WHOLE))
  }
  return { lefts, parts }
}
