import type { CauseName } from './cause.ts'
import { CAUSE_NAMES, CAUSES } from './causes.ts'
import { type Beliefs, type Signs, USUAL_BELIEFS } from './rank.ts'
import type { SignName } from './signNames.ts'

/** A failure whose cause somebody found out. */
export type ConfirmedFailure = Readonly<{ cause: CauseName; signs: Signs }>

/** The table counts like so many confirmed failures, and each link like so many of its cause. Judged. */
const TABLE_FAILURES = 20
const LINK_FAILURES = 8

/**
 * The table moved by what a shop confirmed: shares by counts on top of the table's (Dirichlet), each
 * link by a Beta of its own.
 *
 * @source beta-counts
 */
export function learnedBeliefs(confirmed: readonly ConfirmedFailure[]): Beliefs {
  if (confirmed.length === 0) return USUAL_BELIEFS
  const tableShares = CAUSE_NAMES.reduce((sum, cause) => sum + CAUSES[cause].share, 0)
  const of = (cause: CauseName): readonly ConfirmedFailure[] =>
    confirmed.filter((each) => each.cause === cause)
  const count = (sign: SignName, cause: CauseName, answer: 'yes' | 'no'): number =>
    of(cause).filter(({ signs }) => signs[answer].includes(sign)).length
  return {
    shareOf: (cause) =>
      ((CAUSES[cause].share / tableShares) * TABLE_FAILURES + of(cause).length) /
      (TABLE_FAILURES + confirmed.length),
    chanceOf: (sign, cause) => {
      const yes = count(sign, cause, 'yes')
      const all = yes + count(sign, cause, 'no')
      const before = USUAL_BELIEFS.chanceOf(sign, cause)
      return (before * LINK_FAILURES + yes) / (LINK_FAILURES + all)
    },
  }
}
