import type { Enlarger, WidenPlan } from '../../kernels/enlarger.ts'
import { type DotRow, type FilmRows, SCATTER_PX } from '../../kernels/filmRows.ts'

/** Rows of a film in plain loops: what kernels/filmRows.ts is held to, bit by bit. */
export function plainRows(): FilmRows {
  return {
    tones: (widthPx) => new Uint16Array(widthPx),
    bits: (widthPx) => new Uint8Array(Math.ceil(widthPx / 8)),
    places: (count) => new Int16Array(2 * count),
    greys: (widthPx, table) => {
      const tones = new Uint16Array(widthPx)
      return { tones, take: (greys) => tones.set(Uint16Array.from(greys, (grey) => table[grey])) }
    },
    enlarger: plainEnlarger,
    counter: (widthPx, squarePx) => {
      const counts = new Uint32Array(Math.ceil(widthPx / squarePx))
      return {
        add: (bits) => {
          for (let x = 0; x < widthPx; x++) {
            counts[Math.floor(x / squarePx)] += (bits[x >> 3] >> (7 - (x & 7))) & 1
          }
        },
        taken: () => {
          const own = counts.slice()
          counts.fill(0)
          return own
        },
      }
    },
    decide: (rows) => {
      const parts = rows.map((row) => row.slice())
      rows.forEach((row) => row.fill(0))
      for (let x = 0; x < (rows[0]?.length ?? 0); x++) {
        const own = parts.map((part) => part[x])
        const most = Math.max(...own)
        const rest = 0xffff - own.reduce((sum, part) => sum + part, 0)
        if (most > 0 && most >= rest) rows[own.indexOf(most)][x] = 0xffff
      }
    },
    limit: (row, { nothingBelow, least, most, solidAbove }) => {
      row.forEach((tone, x) => {
        const held = Math.min(Math.max(tone, least), most)
        row[x] = tone > solidAbove ? 0xffff : tone >= nothingBelow ? held : 0
      })
    },
    dots: (row, dots, bits) => {
      bits.fill(0)
      row.forEach((tone, x) => {
        const isFlat = tone === 0 || tone === 0xffff
        if (isFlat ? tone > 0 : orderAt(dots, x) < tone) blacken(bits, x)
      })
    },
    mask: (row, line, bits) => {
      bits.fill(0)
      row.forEach((tone, x) => {
        if (line[x % line.length] < tone) blacken(bits, x)
      })
    },
    solid: (row, bits) => {
      bits.fill(0)
      row.forEach((tone, x) => {
        if (tone >= 0x8000) blacken(bits, x)
      })
    },
    takeEnds: (row, { low, high }, { bits, other }) => {
      const isEnd = (tone: number): boolean => tone < low || tone > high
      if (!row.some((tone) => tone > 0 && tone < 0xffff && isEnd(tone))) return
      const taken = other()
      row.forEach((tone, x) => {
        const [byte, bit] = [x >> 3, 0x80 >> (x & 7)]
        if (isEnd(tone)) bits[byte] = (bits[byte] & ~bit) | (taken[byte] & bit)
      })
    },
  }
}

function blacken(bits: Uint8Array, x: number): void {
  bits[x >> 3] |= 0x80 >> (x & 7)
}

/** `rise` times a part of 1/32 768, rounded. */
function partOf(rise: number, part: number): number {
  return (rise * part + 0x4000) >> 15
}

function plainEnlarger({ fromPx, lefts, parts }: WidenPlan, plates: number): Enlarger {
  const widen = (row: Uint16Array) =>
    Int32Array.from(lefts, (left, x) => {
      const from = row[left] >> 1
      const to = left + 1 < fromPx ? row[left + 1] >> 1 : from
      return from + partOf(to - from, parts[x])
    })
  const none = new Int32Array(lefts.length)
  const held = Array.from({ length: plates }, () => ({ upper: none, lower: none }))
  return {
    take: (plate, row) => {
      held[plate] = { upper: held[plate].lower, lower: widen(row) }
    },
    row: (plate, part) => {
      const { upper, lower } = held[plate]
      return Uint16Array.from(lower, (to, x) => {
        const tone = part === null ? to : upper[x] + partOf(to - upper[x], part)
        return (tone << 1) | (tone >> 14)
      })
    },
    drawer: () => null,
  }
}

/** When ink comes to a pixel, 0 … 65 534: its place in the cell, to 16 bits, says it. */
function orderAt({ shape, u, v, du, dv, scatter }: DotRow, x: number): number {
  const [block, lane] = [x & ~15, x & 15]
  const place = (first: number, step: number, moved: number): number =>
    ((((first + Math.imul(block, step)) >>> 16) + (Math.imul(lane, step) >>> 16) + moved) << 16) >>
    16
  const at = 2 * (x % SCATTER_PX)
  const along = place(u, du, scatter?.[at] ?? 0)
  const across = place(v, dv, scatter?.[at + 1] ?? 0)
  return Math.min(65_534, Math.floor(ORDERS[shape](along, across)))
}

const ORDERS: Readonly<Record<DotRow['shape'], (along: number, across: number) => number>> = {
  round: (along, across) => (along * along + across * across) / 2 ** 15,
  elliptical: (along, across) =>
    (along * partOf(along, 8192) + across * partOf(across, 18_432)) / 2 ** 14,
  line: (_, across) => 2 * Math.abs(across),
}
