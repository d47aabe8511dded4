/** What is told of a wedge so far. */
export type WedgeMarks = Readonly<{
  steps: number
  /** The last solid step; 0: not one; null: not told. */
  solid: number | null
  /** The first clear step; null: not told. */
  clear: number | null
}>

export type StepIs = 'solid' | 'part' | 'clear' | 'open'

/** How a step stands by what has been told. */
export function stepIs(step: number, { solid, clear }: WedgeMarks): StepIs {
  if (solid !== null && step <= solid) return 'solid'
  if (clear !== null && step >= clear) return 'clear'
  return solid !== null && clear !== null ? 'part' : 'open'
}

/** What a tap on a step tells: first the last solid step, then the first clear one. */
export function afterTap(
  step: number,
  { solid, clear }: WedgeMarks,
): Readonly<{ solid: number; clear: number | null }> {
  return solid === null || clear !== null || step <= solid
    ? { solid: step, clear: null }
    : { solid, clear: step }
}
