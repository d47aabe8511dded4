import { type Kept, replay } from '../belief/replay.ts'
import type { ShopFacts } from '../belief/state.ts'
import type { Reference } from './witnesses.ts'

/** So much must have been read before drift can be seen: six wedges, or two strips.
 * @source drift-reference */
const ENOUGH = 6
/** What each reading counts towards that. */
const COUNTS = { wedge: 1, strip: 3, outcome: 1 / 3 } as const

/**
 * What drift is charted against where nobody has accepted a calibration: the belief in the evening
 * of the first day by which six wedges were read; a strip counts as three, three screens as one.
 *
 * @returns null where there is not so much
 * @source drift-reference
 */
export function referenceOf(
  evidence: readonly Kept[],
  { shop }: Readonly<{ shop: ShopFacts }>,
): Reference | null {
  const day = referenceDayOf(evidence)
  return day === null ? null : { belief: replay(evidence, { shop, until: day }).belief, day }
}

/**
 * The day of that reference alone, for whoever has the belief of its evening already.
 *
 * @source drift-reference
 */
export function referenceDayOf(evidence: readonly Kept[]): number | null {
  const dated = evidence
    .flatMap(({ kind, day, struckOut }) =>
      day === undefined || struckOut === true ? [] : [{ kind, day: Math.floor(day) }],
    )
    .sort((a, b) => a.day - b.day)
  let read = 0
  for (const { kind, day } of dated) {
    read += COUNTS[kind]
    if (read > ENOUGH - 1e-9) return day
  }
  return null
}
