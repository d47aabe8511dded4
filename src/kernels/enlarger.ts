import type { Kernel } from './kernel.ts'

/** Where each pixel of the wider row lies between two of the narrower: its left one, and how far on, in 1/32 768. */
export type WidenPlan = Readonly<{ fromPx: number; lefts: Int32Array; parts: Int16Array }>

export type Enlarger = Readonly<{
  /** The next row of a plate. */
  take: (plate: number, row: Uint16Array) => void
  /** A row between the last two taken, so far from the first of them, in 1/32 768; null: the last. */
  row: (plate: number, part: number | null) => Uint16Array
}>

/** Whole vectors, as rows of tones and of bits have them. */
export function padded(widthPx: number): number {
  return 16 * Math.ceil(widthPx / 16)
}

/** What an enlarger takes of the room. */
export function enlargerBytes({ fromPx, lefts }: WidenPlan, plates: number): number {
  const width = padded(lefts.length)
  return 8 * width + narrowBytes(fromPx) + plates * 6 * width
}

/** A narrow row is looked at by 16 bytes from any of its pixels on. */
function narrowBytes(fromPx: number): number {
  return 2 * padded(fromPx) + 16
}

type Within = Readonly<{
  plan: WidenPlan
  plates: number
  buffer: ArrayBuffer
  named: Kernel['named']
}>

/** Laid out from an address on: `enlargerBytes` of it. */
export function enlargerAt(first: number, { plan, plates, buffer, named }: Within): Enlarger {
  const { fromPx, lefts } = plan
  const widthPx = lefts.length
  const wide = 2 * padded(widthPx)
  let at = first
  const next = (bytes: number): number => {
    at += bytes
    return at - bytes
  }
  const widen = widener(plan, { buffer, named, recordsAt: next(4 * wide) })
  const narrowAt = next(narrowBytes(fromPx))
  const narrow = new Uint16Array(buffer, narrowAt, fromPx)
  const held = Array.from({ length: plates }, () => ({
    upper: next(wide),
    lower: next(wide),
    row: new Uint16Array(buffer, next(wide), widthPx),
  }))
  const blend = named('blend')
  return {
    take: (plate, row) => {
      const own = held[plate]
      ;[own.upper, own.lower] = [own.lower, own.upper]
      narrow.set(row)
      widen(narrowAt, own.lower)
    },
    row: (plate, part) => {
      const { upper, lower, row } = held[plate]
      blend(part === null ? lower : upper, lower, part ?? 0, widthPx, row.byteOffset)
      return row
    },
  }
}

/** Samples of which 16 bytes hold a pixel's left and right neighbour. */
const SEEN = 7
/** Of eight pixels: 16 bytes that say which are their left neighbours, 16 how far, 4 where from. */
const RECORD_BYTES = 48

function widener(
  { lefts, parts }: WidenPlan,
  { buffer, named, recordsAt }: Pick<Within, 'buffer' | 'named'> & Readonly<{ recordsAt: number }>,
): (from: number, into: number) => void {
  const widthPx = lefts.length
  const groups = Math.ceil(widthPx / 8)
  let widest = 0
  for (let first = 0; first < widthPx; first += 8) {
    widest = Math.max(widest, lefts[Math.min(widthPx, first + 8) - 1] - lefts[first])
  }
  if (widest >= SEEN) {
    const records = new Int32Array(buffer, recordsAt, 2 * widthPx)
    lefts.forEach((left, x) => {
      records[2 * x] = 2 * left
      records[2 * x + 1] = parts[x]
    })
    const widen = named('widenEach')
    return (from, into) => widen(from, recordsAt, widthPx, into)
  }
  const bytes = new Uint8Array(buffer, recordsAt, RECORD_BYTES * groups)
  const words = new Int16Array(buffer, recordsAt, (RECORD_BYTES / 2) * groups)
  const offsets = new Int32Array(buffer, recordsAt, (RECORD_BYTES / 4) * groups)
  for (let x = 0; x < widthPx; x++) {
    const group = x >> 3
    const lane = x & 7
    const left = 2 * (lefts[x] - lefts[8 * group])
    bytes[RECORD_BYTES * group + 2 * lane] = left
    bytes[RECORD_BYTES * group + 2 * lane + 1] = left + 1
    words[(RECORD_BYTES / 2) * group + 8 + lane] = parts[x]
    offsets[(RECORD_BYTES / 4) * group + 8] = 2 * lefts[8 * group]
  }
  const widen = named('widen')
  return (from, into) => widen(from, recordsAt, widthPx, into)
}
