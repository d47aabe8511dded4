import { type Lu, lu, type Share, share } from '../../units/quantity.ts'
import { expectIn, type Range } from '../../units/range.ts'
import { chanceHold, chanceOpen } from './chances.ts'
import type { Outlook } from './question.ts'

/** Latitude as a cloth on a logarithmic dose scale. */
export type Cloth = Readonly<{
  /** Where the threads along end, the shortest first: there a mark may fog over. */
  alongEndsLu: readonly Lu[]
  /** The threads across: how long each is, the chance that the ground holds at its dose. */
  across: readonly Readonly<{ doseLu: Lu; lengthShare: Share }>[]
}>

/** Threads of a cloth that run along the scale. */
export const THREADS: Range = { name: 'along', low: 1, high: 99, unit: 'threads', whole: true }

/**
 * The threads of the cloth. Those along end at quantiles of the belief in the fog limit, in the
 * middle of equal shares of it: thread k of n at (k − 1/2)/n. So at any dose the threads that still
 * run say the chance that the marks are open, doubt frays and certainty is a clean edge.
 *
 * @param along 1 … 99 threads
 * @param acrossLu doses of the threads across
 * @throws RangeError outside that range
 */
export function clothOf(
  outlook: Outlook,
  { along, acrossLu }: Readonly<{ along: number; acrossLu: readonly Lu[] }>,
): Cloth {
  expectIn(along, THREADS)
  return {
    alongEndsLu: Array.from({ length: along }, (_, at) => fogQuantile(outlook, (at + 0.5) / along)),
    across: acrossLu.map((doseLu) => ({
      doseLu,
      lengthShare: share(chanceHold(outlook, Math.log10(doseLu))),
    })),
  }
}

/** The dose at which the chance of open marks has fallen by a part, by halving. */
function fogQuantile(outlook: Outlook, part: number): Lu {
  let low = -3
  let high = 9
  while (high - low > 1e-6) {
    const middle = (low + high) / 2
    if (chanceOpen(outlook, middle) > 1 - part) low = middle
    else high = middle
  }
  return lu(10 ** ((low + high) / 2))
}
