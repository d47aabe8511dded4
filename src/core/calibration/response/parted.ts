/** At one x, how many reached a level and how many did not. */
export type Reached = Readonly<{ x: number; yes: number; no: number }>

/**
 * Whether some x parts those that reached a level from those that did not, or all are of one sort:
 * then no curve is likelier than a step, and no likelihood has a greatest place.
 */
export function isParted(all: readonly Reached[]): boolean {
  const yes = all.filter((each) => each.yes > 0).map(({ x }) => x)
  const no = all.filter((each) => each.no > 0).map(({ x }) => x)
  if (yes.length === 0 || no.length === 0) return true
  return Math.max(...no) <= Math.min(...yes) || Math.max(...yes) <= Math.min(...no)
}
