/** Something that a run costs; null: its price is not known. */
export type CostLine = Readonly<{
  what: 'paper' | 'ink' | 'screens' | 'films'
  cost: number | null
}>

export type PrintCost = Readonly<{
  lines: readonly CostLine[]
  /** Of the lines with a price. */
  total: number
  /** On each print that is wanted. */
  perPrint: number
  missing: readonly CostLine['what'][]
}>

/**
 * What one good print costs: all that the run uses, spoils and leftover ink too, over the prints
 * that are wanted. Hours of work are not counted.
 *
 * @param prints wanted, 1 or more
 * @throws RangeError for less
 */
export function printCost(
  lines: readonly CostLine[],
  { prints }: Readonly<{ prints: number }>,
): PrintCost {
  if (!(prints >= 1)) throw new RangeError(`prints: expected 1 or more, got ${prints}`)
  const total = lines.reduce((sum, { cost }) => sum + (cost ?? 0), 0)
  const missing = lines.flatMap(({ what, cost }) => (cost === null ? [what] : []))
  return { lines, total, perPrint: total / prints, missing }
}

/** Weighed inks at their prices; null where one of them has none. */
export function inkCost(
  parts: readonly Readonly<{ grams: number; pricePerKg: number | null }>[],
): number | null {
  return parts.reduce<number | null>(
    (sum, { grams, pricePerKg }) =>
      sum === null || pricePerKg === null ? null : sum + (grams / 1000) * pricePerKg,
    0,
  )
}
