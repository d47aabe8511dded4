import type { LentSheet } from '../../kernels/photoPlanes.ts'
import type { Sheet } from './photoLight.ts'

/** What a photo tells wrong, as parts of the sheet. */
export type Beyond = Readonly<{
  /** Denser than can be told. */
  darkShare: number
  /** Clear or not: the photo's light is at its end. */
  clippedShare: number
  /** Much brighter than clear film: a reflection, or light past the film. */
  glareShare: number
  /** Not in the photo at all. */
  unseenShare: number
}>

/** What a sheet has on it, and what the photo tells wrong of it. */
export type Turned = Beyond &
  Readonly<{
    /** Clearly denser than clear film. */
    markedShare: number
  }>

/** As dense as the palest mark that is worth looking at (judged). */
const MARKED_FROM = Math.fround(0.12)

const SEEN_FROM = -0.5
const SEEN_TO = 5
const SEEN_STEP = 0.001
const SEEN_PER_DENSITY = 1000
const KNOT = 16
const GLARE = Math.fround(0.12)
const CLIPPED_FROM = Math.fround(0.9995)
/**
 * log10 of light by the leading bits of its 32-bit float, from 2^−17 to 2: what is left out is half
 * a 2048th of it, 0.0001 of density.
 */
const LOG = { drops: 12, from: (127 - 17) << 11, count: 18 << 11 } as const

/**
 * Turns a sheet's light into densities above clear film, in place.
 *
 * @param logClear log10 of clear light at a pixel of the sheet
 * @param densityOf by log10 of clear light over light
 * @param highest what is denser gets this
 */
export function turnToDensities(
  sheet: Sheet,
  {
    logClear,
    densityOf,
    highest,
  }: Readonly<{
    logClear: (x: number, y: number) => number
    densityOf: (seen: number) => number
    highest: number
  }>,
): Turned {
  const table = Float32Array.from(
    { length: Math.round((SEEN_TO - SEEN_FROM) / SEEN_STEP) + 1 },
    (_, at) => densityOf(SEEN_FROM + at * SEEN_STEP),
  )
  const told = { logs: logTable(), table, highest }
  const turn = sheet.lent === undefined ? plainTurn(sheet, told) : machineTurn(sheet.lent, told)
  const { widthPx, heightPx } = sheet
  const knots = Math.ceil(widthPx / KNOT) + 1
  let above = rowOfKnots(logClear, knots, 0)
  for (let first = 0; first < heightPx; first += KNOT) {
    const below = rowOfKnots(logClear, knots, first + KNOT)
    turn.rows({ first, count: Math.min(KNOT, heightPx - first) }, [above, below])
    above = below
  }
  const all = widthPx * heightPx
  const [dark, clipped, glare, unseen, marked] = turn.counts
  return {
    darkShare: dark / all,
    clippedShare: clipped / all,
    glareShare: glare / all,
    unseenShare: unseen / all,
    markedShare: marked / all,
  }
}

const { fround } = Math

type Told = Readonly<{ logs: Float32Array; table: Float32Array; highest: number }>

/** Turns rows between knots of log10 of clear light; counts dark, clipped, glare, unseen, marked. */
type Turn = Readonly<{ rows: LentSheet['toDensities']; counts: Int32Array }>

function machineTurn(lent: LentSheet, told: Told): Turn {
  lent.goBy(told)
  return { rows: lent.toDensities, counts: lent.counts }
}

function plainTurn({ widthPx, values }: Sheet, { logs, table, highest }: Told): Turn {
  const bits = new Int32Array(values.buffer, values.byteOffset, values.length)
  const counts = new Int32Array(5)
  const most = fround(highest)
  const turnStretch = (from: number, end: number, clearFrom: number, step: number): void => {
    let [dark, clipped, glare, unseen, marked] = [0, 0, 0, 0, 0]
    for (let at = from; at < end; at += 1) {
      const light = values[at]
      if (!(light >= 0)) {
        unseen += 1
        values[at] = 0
        continue
      }
      const lit = Math.max(0, Math.min(logs.length - 1, (bits[at] >>> LOG.drops) - LOG.from))
      const clear = fround(clearFrom + fround((at - from) * step))
      const seen = fround(clear - logs[lit])
      if (light > CLIPPED_FROM) clipped += 1
      else if (seen < -GLARE) glare += 1
      const scaled = fround(fround(seen - SEEN_FROM) * SEEN_PER_DENSITY)
      const place = Math.trunc(fround(scaled + 0.5))
      const density = table[Math.max(0, Math.min(table.length - 1, place))]
      if (density > MARKED_FROM) marked += 1
      if (density > most) dark += 1
      values[at] = Math.max(0, Math.min(density, most))
    }
    counts.set([dark, clipped, glare, unseen, marked].map((count, at) => counts[at] + count))
  }
  return {
    counts,
    rows: ({ first, count }, [above, below]) => {
      for (let y = first; y < first + count; y += 1) {
        const down = (y - first) / KNOT
        for (let knot = 0; knot < above.length - 1; knot += 1) {
          const left = above[knot] + down * (below[knot] - above[knot])
          const right = above[knot + 1] + down * (below[knot + 1] - above[knot + 1])
          const start = y * widthPx + knot * KNOT
          const step = fround((right - left) / KNOT)
          turnStretch(start, Math.min(start + KNOT, (y + 1) * widthPx), fround(left), step)
        }
      }
    },
  }
}

function logTable(): Float32Array {
  const floats = new Float32Array(1)
  const bits = new Int32Array(floats.buffer)
  return Float32Array.from({ length: LOG.count }, (_, at) => {
    bits[0] = ((LOG.from + at) << LOG.drops) | (1 << (LOG.drops - 1))
    return Math.log10(floats[0])
  })
}

function rowOfKnots(
  logClear: (x: number, y: number) => number,
  knots: number,
  y: number,
): Float64Array {
  return Float64Array.from({ length: knots }, (_, knot) => logClear(knot * KNOT + 0.5, y + 0.5))
}
