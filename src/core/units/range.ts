/** What a value may be: one record for the check, the form field and the help text. */
export type Range = Readonly<{
  name: string
  low: number
  high: number
  unit: string
  whole?: boolean
}>

/** True when low ≤ value ≤ high, and whole where it must be; NaN is never in a range. */
export function isIn(value: number, { low, high, whole = false }: Range): boolean {
  return value >= low && value <= high && (!whole || Number.isInteger(value))
}

/** What a range allows, in words: `0 to 5000 um`, `a whole number from 1 to 21 steps`. */
export function rangeWords({ low, high, unit, whole = false }: Range): string {
  return `${whole ? 'a whole number from ' : ''}${low} to ${high} ${unit}`.trimEnd()
}

/** @throws RangeError unless low ≤ value ≤ high, and whole where it must be; NaN fails */
export function expectIn(value: number, range: Range): void {
  if (!isIn(value, range)) {
    throw new RangeError(`${range.name}: expected ${rangeWords(range)}, got ${value}`)
  }
}
