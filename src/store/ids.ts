import { randomBytes } from 'node:crypto'
import { expectIn, type Range } from '../core/units/range.ts'

/** Digits and letters without i, l, o and u, in the order of their codes. */
const SIGNS = '0123456789abcdefghjkmnpqrstvwxyz'

const TIME: Range = { name: 'timeMs', low: 0, high: 2 ** 48 - 1, unit: 'ms', whole: true }
const TIME_SIGNS = 10
const RANDOM_SIGNS = 16

/**
 * A name for a new record: 10 signs of time, then 80 random bits in 16 signs. Sorted as text they
 * stand in the order of their milliseconds; two of one millisecond in no order.
 *
 * @param at the time now
 * @param random bytes for as many as asked; the system's own unless a test brings others
 * @throws RangeError for a time before 1970 or after the year 10889
 */
export function sortableId(at: Date, random: (count: number) => Uint8Array = randomBytes): string {
  const timeMs = at.getTime()
  expectIn(timeMs, TIME)
  let rest = timeMs
  let time = ''
  for (let sign = 0; sign < TIME_SIGNS; sign++) {
    time = SIGNS.charAt(rest % 32) + time
    rest = Math.floor(rest / 32)
  }
  const signs = Array.from(random(RANDOM_SIGNS), (byte) => SIGNS.charAt(byte % 32))
  return time + signs.join('')
}

/** Whether a text can be the name of a record at all. */
export function isSortableId(text: string): boolean {
  return /^[0-9abcdefghjkmnpqrstvwxyz]{26}$/.test(text)
}
