import { type Beliefs, beliefsOf, type Signs } from './rank.ts'
import { type DiagnosisTable, USUAL_TABLE } from './table.ts'

/** A failure whose cause somebody found out. */
export type ConfirmedFailure = Readonly<{ cause: string; signs: Signs }>

/** The table counts like so many confirmed failures, and each link like so many of its cause. Judged. */
const TABLE_FAILURES = 20
const LINK_FAILURES = 8
/** What the shop says that it saw counts like so many. Judged. */
const SEEN_FAILURES = 24

/**
 * The table moved by what a shop confirmed: shares by counts on top of the table's (Dirichlet), each
 * link by a Beta of its own.
 *
 * @source beta-counts
 */
export function learnedBeliefs(
  confirmed: readonly ConfirmedFailure[],
  table: DiagnosisTable = USUAL_TABLE,
): Beliefs {
  const usual = beliefsOf(table)
  const mine = confirmed.filter(({ cause }) => table.causes.has(cause))
  if (mine.length === 0) return usual
  const tableShares = [...table.causes.values()].reduce((sum, { share }) => sum + share, 0)
  const of = (cause: string): readonly ConfirmedFailure[] =>
    mine.filter((each) => each.cause === cause)
  return {
    table,
    shareOf: (cause) =>
      ((usual.shareOf(cause) / tableShares) * TABLE_FAILURES + of(cause).length) /
      (TABLE_FAILURES + mine.length),
    chanceOf: (sign, cause) => {
      const count = (answer: 'yes' | 'no'): number =>
        of(cause).filter(({ signs }) => signs[answer].includes(sign)).length
      const yes = count('yes')
      const isSeen = table.causes.get(cause)?.links.get(sign)?.isSeen ?? false
      const before = isSeen ? SEEN_FAILURES : LINK_FAILURES
      return (usual.chanceOf(sign, cause) * before + yes) / (before + yes + count('no'))
    },
  }
}
