import type { LeakLimits } from './classes.ts'

/** Share of the light that falls within ±a um of the middle of an endless line. */
export type StripShare = (halfWidthUm: number) => number

export type SmallestLines = Readonly<{
  /** Narrowest endless line on the film whose middle opens; null when none does. */
  openLineUm: number | null
  /** Narrowest one that opens over half its width. */
  halfOpenLineUm: number | null
  /** Narrowest clear line in a solid surround whose middle is hard through; null when none is. */
  closedLineUm: number | null
}>

type Film = Readonly<{
  /** Transmission of the solid marks, 0 … 1. */
  solid: number
  strip: StripShare
  /** A half width at which the strip share is 1 for all that matters, um. */
  reachUm: number
}>

/**
 * The narrowest lines a film and a spread allow at a dose, fabric not counted.
 *
 * In the middle of a dark line of width w the leak is Ts + (1 − Ts)(1 − P(w/2)), P the strip
 * share; in the middle of a clear one in a solid surround Ts + (1 − Ts) P(w/2). Both rise or fall
 * with w alone, so the width is found by halving.
 *
 * @source line-centres
 */
export function smallestLines({ solid, strip, reachUm }: Film, limits: LeakLimits): SmallestLines {
  const dark = (widthUm: number, fromMiddleUm: number): number => {
    const covered = (strip(widthUm / 2 - fromMiddleUm) + strip(widthUm / 2 + fromMiddleUm)) / 2
    return 1 - (1 - solid) * covered
  }
  const clear = (widthUm: number): number => solid + (1 - solid) * strip(widthUm / 2)
  const most = 4 * reachUm
  // What the solid itself lets through opens under no width, however the sums are rounded.
  const opens = (leak: number): boolean => leak < limits.skin && solid < limits.skin
  return {
    openLineUm: narrowest(most, (width) => opens(dark(width, 0))),
    halfOpenLineUm: narrowest(most, (width) => opens(dark(width, width / 4))),
    closedLineUm: narrowest(most, (width) => clear(width) >= limits.full),
  }
}

/**
 * How far the open area's edge lies inside the edge of a wide mark, um; negative when it spreads
 * beyond. Where the leak, Ts + (1 − Ts)(1/2 − P(x)/2) at x inside the mark, equals the skin limit.
 *
 * @returns null when no place of the mark opens, or everything does
 * @source line-centres
 */
export function edgeInsetUm({ solid, strip, reachUm }: Film, { skin }: LeakLimits): number | null {
  const leak = (insideUm: number): number => {
    const half = strip(Math.abs(insideUm)) / 2
    return solid + (1 - solid) * (0.5 - Math.sign(insideUm) * half)
  }
  if (!(leak(reachUm) < skin && leak(-reachUm) >= skin)) return null
  let [outside, inside] = [-reachUm, reachUm]
  while (inside - outside > 1e-9 * reachUm) {
    const middle = (outside + inside) / 2
    if (leak(middle) < skin) inside = middle
    else outside = middle
  }
  return (outside + inside) / 2
}

/** Least width at which a condition that stays once met is met; 0 when always, null when never. */
function narrowest(most: number, isMet: (widthUm: number) => boolean): number | null {
  if (isMet(0)) return 0
  if (!isMet(most)) return null
  let [low, high] = [0, most]
  while (high - low > 1e-9 * most) {
    const middle = (low + high) / 2
    if (isMet(middle)) high = middle
    else low = middle
  }
  return (low + high) / 2
}
