import { logShareBetween } from './normal.ts'

const END = 40
const PER_UNIT = 64
const PLACES = 2 * END * PER_UNIT + 1

/**
 * log of the share of the standard normal in from … from + width, from a table: to 1e-8. Beyond 40
 * sd it is worked out.
 *
 * @param width above 0, may be infinite
 */
export function stepShareLog(width: number): (from: number) => number {
  const exact = (from: number): number => logShareBetween(from, from + width)
  let table: Float64Array | null = null // made when first asked for: it takes a while
  return (from) => {
    table ??= Float64Array.from({ length: PLACES }, (_, at) => exact(at / PER_UNIT - END))
    const place = (from + END) * PER_UNIT
    const at = Math.floor(place)
    if (!(at >= 1 && at < PLACES - 2)) return exact(from)
    const t = place - at
    // The cubic through the four places around.
    const before = table[at - 1] ?? 0
    const left = table[at] ?? 0
    const right = table[at + 1] ?? 0
    const after = table[at + 2] ?? 0
    const third = (after - before) / 6 + (left - right) / 2
    const second = (before + right) / 2 - left
    return left + t * (right - left - second - third + t * (second + t * third))
  }
}
