import { type Mm, mm, type Um, um } from '../units/quantity.ts'
import { expectIn, type Range } from '../units/range.ts'

/** The gap between the fabric at rest and the paper. */
export const OFF_CONTACT: Range = { name: 'offContactMm', low: 0, high: 30, unit: 'mm' }
/** Inside of the frame along the stroke. */
export const CLEAR_SPAN: Range = { name: 'clearSpanMm', low: 20, high: 10_000, unit: 'mm' }
export const TENSION: Range = { name: 'tensionNewtonPerCm', low: 2, high: 80, unit: 'N/cm' }

/** Where an image stands in its frame, along the stroke: as far from one end as from the other. */
export type Standing = Readonly<{ clearSpanMm: Mm; marginMm: Mm }>

/**
 * How much longer an image prints than its film: g = h² (W − 2a) / (a (W − a)).
 *
 * The squeegee presses the fabric down to a corner, and the longer side gives to the shorter. What
 * stood at a + g/2 prints at a, and at the other end likewise.
 *
 * @param offContactMm h, 0 … 30 mm
 * @param standing W = clearSpanMm; a = marginMm from frame to image at both ends, below W/2
 * @returns um, over the whole length of the image
 * @throws RangeError outside these ranges
 * @source off-contact-string
 * @limits an even pull in a weightless string that slides under the squeegee; h well below a
 */
export function imageGrowthUm(offContactMm: Mm, { clearSpanMm, marginMm }: Standing): Um {
  expectIn(offContactMm, OFF_CONTACT)
  expectIn(clearSpanMm, CLEAR_SPAN)
  expectIn(marginMm, { name: 'marginMm', low: 1, high: clearSpanMm / 2, unit: 'mm' })
  const growthMm =
    (offContactMm ** 2 * (clearSpanMm - 2 * marginMm)) / (marginMm * (clearSpanMm - marginMm))
  return um(1000 * growthMm)
}

/**
 * Force that lifts the fabric off the paper behind the squeegee: F = T h W / (x (W − x)).
 *
 * @param at W = clearSpanMm, x = fromEdgeMm of the squeegee from one end, T in N/cm
 * @returns newton on each cm along the squeegee
 * @throws RangeError outside these ranges
 * @source off-contact-string
 */
export function snapOffNewtonPerCm(
  offContactMm: Mm,
  {
    clearSpanMm,
    fromEdgeMm,
    tensionNewtonPerCm,
  }: Readonly<{ clearSpanMm: Mm; fromEdgeMm: Mm; tensionNewtonPerCm: number }>,
): number {
  expectIn(offContactMm, OFF_CONTACT)
  expectIn(clearSpanMm, CLEAR_SPAN)
  expectIn(tensionNewtonPerCm, TENSION)
  expectIn(fromEdgeMm, { name: 'fromEdgeMm', low: 1, high: clearSpanMm - 1, unit: 'mm' })
  return (
    (tensionNewtonPerCm * offContactMm * clearSpanMm) / (fromEdgeMm * (clearSpanMm - fromEdgeMm))
  )
}

/** The one published setting: 3/16 inch on a frame 23 inches wide at 27 N/cm. */
const PUBLISHED = { offContactMm: 4.8, clearSpanMm: 23 * 25.4, tensionNewtonPerCm: 27 }

/**
 * Off-contact to begin with: as much as lifts the fabric in the middle with the force of the
 * published setting, h = 4.8 · (W / 584) · (27 / T). Slack or wide screens need more.
 *
 * @returns mm, to the half millimetre, 1.5 … 10
 * @throws RangeError outside these ranges
 * @source off-contact-practice
 * @limits the setting is published, its scaling judged; on paper many printers take half of it
 */
export function usualOffContactMm({
  clearSpanMm,
  tensionNewtonPerCm,
}: Readonly<{ clearSpanMm: Mm; tensionNewtonPerCm: number }>): Mm {
  expectIn(clearSpanMm, CLEAR_SPAN)
  expectIn(tensionNewtonPerCm, TENSION)
  const wanted =
    (PUBLISHED.offContactMm * clearSpanMm * PUBLISHED.tensionNewtonPerCm) /
    (PUBLISHED.clearSpanMm * tensionNewtonPerCm)
  return mm(Math.min(10, Math.max(1.5, Math.round(2 * wanted) / 2)))
}
