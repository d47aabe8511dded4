import type { PlacementProblem } from './problem.ts'
import type { Ways } from './ways.ts'

/** A film that may lie either way, for all that is known: it counts by its lesser side both ways. */
export const EITHER = 2

/** What is known in a branch: how far each rectangle may lie to each side, and how pairs may lie. */
export type Windows = Readonly<{
  /** First place along each axis, and last end; of films, then of keep-outs, which lie fast. */
  left: Float64Array
  top: Float64Array
  right: Float64Array
  bottom: Float64Array
  /** 0 as it is, 1 turned, or `EITHER`. */
  turned: Uint8Array
  /** Ways that are left to each pair. */
  ways: Uint16Array
  /** Across a corner: the least and the most gap along x. */
  leastAcross: Float64Array
  mostAcross: Float64Array
}>

/** Nothing known yet but where keep-outs lie. */
export function openWindows(
  { films, keepOut }: PlacementProblem,
  { pairs, ways }: Readonly<{ pairs: number; ways: Ways }>,
): Windows {
  const all = films.length + keepOut.length
  const windows: Windows = {
    left: new Float64Array(all).fill(Number.NEGATIVE_INFINITY),
    top: new Float64Array(all).fill(Number.NEGATIVE_INFINITY),
    right: new Float64Array(all).fill(Number.POSITIVE_INFINITY),
    bottom: new Float64Array(all).fill(Number.POSITIVE_INFINITY),
    turned: new Uint8Array(all),
    ways: new Uint16Array(pairs).fill(ways),
    leastAcross: new Float64Array(pairs),
    mostAcross: new Float64Array(pairs).fill(Number.POSITIVE_INFINITY),
  }
  for (const [film, { turn, widthMm, heightMm }] of films.entries()) {
    windows.turned[film] = turn === 'quarter' && widthMm !== heightMm ? EITHER : 0
  }
  for (const [box, { xMm, yMm, widthMm, heightMm }] of keepOut.entries()) {
    const at = films.length + box
    windows.left[at] = xMm
    windows.top[at] = yMm
    windows.right[at] = xMm + widthMm
    windows.bottom[at] = yMm + heightMm
  }
  return windows
}

export function copied(windows: Windows): Windows {
  return {
    left: windows.left.slice(),
    top: windows.top.slice(),
    right: windows.right.slice(),
    bottom: windows.bottom.slice(),
    turned: windows.turned.slice(),
    ways: windows.ways.slice(),
    leastAcross: windows.leastAcross.slice(),
    mostAcross: windows.mostAcross.slice(),
  }
}
