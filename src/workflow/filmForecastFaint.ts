import type { AxisPoint } from '../raster/axisPoints.ts'
import { densityByte, densityByteOfCodes, densityOfByte } from '../raster/tiles.ts'

/** Thin lines much paler than the film's other marks. */
export type FaintLines = Readonly<{
  /** They are paler than this and the rest is denser. */
  paleBelow: number
  lengthMm: number
}>

export type FaintFinder = Readonly<{
  add: (point: AxisPoint) => void
  found: () => FaintLines | null
}>

/** A wider mark is a tone, not a line. */
const WIDEST_MM = 1.2
/** Faint is what is at most so dense, and so dense beside the film's usual mark. */
const FAINT_DENSITY = 0.9
const FAINT_SHARE = 0.55
/** Of what is faint so much must be lines: a pale wash has its edges too. */
const LINES_SHARE = 0.8
/** At least so long, and so much of all marks' length, and no more. */
const LEAST_MM = 20
const LEAST_SHARE = 0.01
const MOST_SHARE = 0.5
/** Between the two kinds there must be a gap at most so deep as this share of the lower peak. */
const VALLEY_SHARE = 0.4

/**
 * Looks for underdrawing: a distinct faint population of thin lines, by the film's density along
 * the middle of its marks. Two hands or one pressing harder and softer make one broad hill, and
 * then nothing is asked; underdrawing in pencil under ink makes two hills with a valley between.
 *
 * All figures are judged: nobody has published how pale underdrawing is.
 *
 * @source underdrawing
 */
export function faintLines({ mmOfPx }: Readonly<{ mmOfPx: number }>): FaintFinder {
  const all = new Float64Array(256)
  const thin = new Float64Array(256)
  const byteOf = densityByteOfCodes()
  return {
    add: ({ filmCode, widthPx }) => {
      const byte = byteOf[filmCode] ?? 0
      all[byte] = (all[byte] ?? 0) + 1
      if (widthPx * mmOfPx <= WIDEST_MM) thin[byte] = (thin[byte] ?? 0) + 1
    },
    found: () => {
      const total = sum(all)
      const usual = densityOfByte(median(all))
      const end = densityByte(Math.min(FAINT_DENSITY, FAINT_SHARE * usual))
      const hills = smooth(all)
      const valley = valleyBelow(hills, end)
      if (valley === null) return null
      const faint = sum(thin.subarray(0, valley))
      if (faint < LINES_SHARE * sum(all.subarray(0, valley))) return null
      const lengthMm = faint * mmOfPx
      const share = faint / total
      if (lengthMm < LEAST_MM || share < LEAST_SHARE || share > MOST_SHARE) return null
      return { paleBelow: densityOfByte(valley) - 0.01, lengthMm }
    },
  }
}

/** The lowest place between a hill below `end` and the highest one above; null without a valley. */
function valleyBelow(hills: Float64Array, end: number): number | null {
  const at = (byte: number): number => hills[byte] ?? 0
  let faint = 0
  for (let byte = 1; byte <= end; byte += 1) if (at(byte) > at(faint)) faint = byte
  let usual = end + 1
  for (let byte = end + 1; byte < 256; byte += 1) if (at(byte) > at(usual)) usual = byte
  let valley = faint
  for (let byte = faint; byte <= usual; byte += 1) if (at(byte) < at(valley)) valley = byte
  // a plain with nothing on it: its middle
  let last = valley
  while (last < usual && at(last + 1) <= at(valley)) last += 1
  const deep = at(valley) <= VALLEY_SHARE * Math.min(at(faint), at(usual))
  return at(faint) > 0 && faint < valley && valley < usual && deep ? (valley + last) >> 1 : null
}

/** Means of seven: 0.14 of density. */
function smooth(counts: Float64Array): Float64Array {
  return counts.map((_, at) => {
    let total = 0
    for (let near = at - 3; near <= at + 3; near += 1) total += counts[near] ?? 0
    return total / 7
  })
}

function median(counts: Float64Array): number {
  const half = sum(counts) / 2
  let below = 0
  return counts.findIndex((count) => (below += count) >= half)
}

function sum(counts: Float64Array): number {
  return counts.reduce((total, count) => total + count, 0)
}
