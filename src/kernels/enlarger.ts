import type { Kernel } from './kernel.ts'
import {
  type BandPlan,
  type Pattern,
  patternBytes,
  patternDrawerAt,
  type Run,
} from './patternRows.ts'

/** Where each pixel of the wider row lies between two of the narrower: its left one, and how far on, in 1/32 768. */
export type WidenPlan = Readonly<{ fromPx: number; lefts: Int32Array; parts: Int16Array }>

export type Enlarger = Readonly<{
  /** The next row of a plate. */
  take: (plate: number, row: Uint16Array) => void
  /** A row between the last two taken, so far from the first of them, in 1/32 768; null: the last. */
  row: (plate: number, part: number | null) => Uint16Array
  /** Draws a plate's rows without their being kept; null where there is no room, or no such machine code. */
  drawer: (plate: number, pattern: Pattern, plan: BandPlan) => BandDrawer | null
}>

/** Draws rows between the last two taken into a band, whose bits hold until they are drawn again. */
export type BandDrawer = Readonly<{
  bits: Uint8Array
  /** @param run isLast: they are all as the last row taken */
  draw: (run: Run & Readonly<{ isLast: boolean }>) => void
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
  /** More of the room; null where it is full. */
  room: (bytes: number) => number | null
}>

/** Laid out from an address on: `enlargerBytes` of it. */
export function enlargerAt(first: number, { plan, plates, buffer, named, room }: Within): Enlarger {
  const { fromPx, lefts } = plan
  const widthPx = lefts.length
  const wide = 2 * padded(widthPx)
  let at = first
  const next = (bytes: number): number => {
    at += bytes
    return at - bytes
  }
  const recordsAt = next(4 * wide)
  const narrowAt = next(narrowBytes(fromPx))
  // the first plate's rows have room for the plan until they are made
  const widen = widener(plan, { buffer, named, recordsAt, roomAt: at })
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
    drawer: (plate, pattern, band) => {
      const at = room(patternBytes(pattern, band))
      if (at === null) return null
      const { bits, draw } = patternDrawerAt(at, pattern, { plan: band, buffer, named })
      const own = held[plate]
      const rowAt = own.row.byteOffset
      return {
        bits,
        draw: (run) => {
          const aboveAt = run.isLast ? own.lower : own.upper
          draw(run, { aboveAt, belowAt: own.lower, rowAt })
        },
      }
    },
  }
}

/** Samples of which 16 bytes hold a pixel's left and right neighbour. */
const SEEN = 7

function widener(
  { lefts, parts }: WidenPlan,
  {
    buffer,
    named,
    recordsAt,
    roomAt,
  }: Pick<Within, 'buffer' | 'named'> & Readonly<{ recordsAt: number; roomAt: number }>,
): (from: number, into: number) => void {
  const widthPx = lefts.length
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
  new Int32Array(buffer, roomAt, widthPx).set(lefts)
  const partsAt = roomAt + 4 * widthPx
  new Int16Array(buffer, partsAt, widthPx).set(parts)
  named('layRecords')(roomAt, partsAt, widthPx, recordsAt)
  const widen = named('widen')
  return (from, into) => widen(from, recordsAt, widthPx, into)
}
