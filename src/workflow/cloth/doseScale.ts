import { expectIn } from '../../core/units/range.ts'

/** A logarithmic scale of doses along a picture's width. */
export type DoseScale = Readonly<{
  lowLu: number
  highLu: number
  widthPx: number
  /** Where a dose stands; outside the scale it lies outside the picture. */
  xPx: (doseLu: number) => number
  doseLu: (xPx: number) => number
}>

/** @throws RangeError unless 0 < lowLu < highLu */
export function doseScale(
  { lowLu, highLu }: Readonly<{ lowLu: number; highLu: number }>,
  widthPx: number,
): DoseScale {
  expectIn(lowLu, { name: 'lowLu', low: Number.MIN_VALUE, high: highLu / (1 + 1e-9), unit: 'lu' })
  const span = Math.log(highLu / lowLu)
  return {
    lowLu,
    highLu,
    widthPx,
    xPx: (doseLu) => (Math.log(doseLu / lowLu) / span) * widthPx,
    doseLu: (xPx) => lowLu * Math.exp((xPx / widthPx) * span),
  }
}

const ROUND = [1, 1.2, 1.5, 2, 2.5, 3, 4, 5, 6, 7, 8]

/** A number under a scale: where its dose stands, and where its figures are centred. */
export type ScaleNumber = Readonly<{ doseLu: number; xPx: number; middlePx: number }>

/**
 * Numbers to stand under a scale: those of `first` where they fit, then round ones. Their middles
 * are `apartPx` from one another and from that of `keepFreeLu`, where one is to be kept free; at the
 * ends they are moved inwards, so that no figure leaves the picture.
 */
export function scaleNumbers(
  scale: DoseScale,
  {
    first,
    keepFreeLu,
    apartPx,
  }: Readonly<{ first: readonly number[]; keepFreeLu: number | null; apartPx: number }>,
): readonly ScaleNumber[] {
  const decades = [-1, 0, 1, 2, 3, 4].map((power) => 10 ** power)
  const coarse = decades.flatMap((decade) => [1, 2, 3, 5, 7].map((part) => part * decade))
  const fine = decades.flatMap((decade) => ROUND.map((part) => part * decade))
  const half = apartPx / 2 - 5
  const middle = (xPx: number): number => Math.min(scale.widthPx - half, Math.max(half, xPx))
  const free = keepFreeLu === null ? Number.NEGATIVE_INFINITY : middle(scale.xPx(keepFreeLu))
  const taken: ScaleNumber[] = []
  for (const doseLu of [...first, ...coarse, ...fine]) {
    if (doseLu < scale.lowLu || doseLu > scale.highLu) continue
    const xPx = scale.xPx(doseLu)
    const middlePx = middle(xPx)
    if (Math.abs(middlePx - free) < apartPx) continue
    if (taken.some((other) => Math.abs(other.middlePx - middlePx) < apartPx)) continue
    taken.push({ doseLu, xPx, middlePx })
  }
  return taken.toSorted((a, b) => a.xPx - b.xPx)
}
