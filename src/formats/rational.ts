import { expectIn } from '../core/units/range.ts'

/** Two unsigned 32-bit whole numbers, as TIFF keeps its resolutions. */
export type Rational = Readonly<{ numerator: number; denominator: number }>

const MOST = 0xffff_ffff

/** Where a 64-bit number cannot tell two fractions apart, the shorter one was meant. */
const SAME = 1e-15

/**
 * The shortest fraction equal to `value` in 64 bits, or the nearest with 32-bit parts, by
 * continued fractions.
 *
 * @param value 1e-9 to 2^32 − 1
 * @throws RangeError outside
 */
export function rationalOf(value: number): Rational {
  expectIn(value, { name: 'value', low: 1e-9, high: MOST, unit: '' })
  let [before, now] = [
    { numerator: 0, denominator: 1 },
    { numerator: 1, denominator: 0 },
  ]
  let rest = value
  while (true) {
    const whole = Math.floor(rest)
    const next = {
      numerator: whole * now.numerator + before.numerator,
      denominator: whole * now.denominator + before.denominator,
    }
    if (next.numerator > MOST || next.denominator > MOST) return now
    if (Math.abs(next.numerator / next.denominator - value) <= SAME * value) return next
    ;[before, now] = [now, next]
    rest = 1 / (rest - whole)
  }
}
