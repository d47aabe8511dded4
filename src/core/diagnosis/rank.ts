import { type DiagnosisTable, linkIn, USUAL_TABLE } from './table.ts'

/** What is known of a failure: signs that are there and signs that are not; all others are unknown. */
export type Signs = Readonly<{ yes: readonly string[]; no: readonly string[] }>

/** How common causes are and how often their signs go with them, as a shop has it. */
export type Beliefs = Readonly<{
  table: DiagnosisTable
  shareOf: (cause: string) => number
  chanceOf: (sign: string, cause: string) => number
}>

/** A table as it stands, before a shop confirmed anything. */
export function beliefsOf(table: DiagnosisTable): Beliefs {
  return {
    table,
    shareOf: (cause) => table.causes.get(cause)?.share ?? 0,
    chanceOf: (sign, cause) => linkIn(table, sign, cause),
  }
}

/** The program's own table. */
export const USUAL_BELIEFS: Beliefs = beliefsOf(USUAL_TABLE)

export type RankedCause = Readonly<{
  cause: string
  /** Of all causes in the table, 0..1. */
  chance: number
  /** What speaks for it, and against it. */
  for: readonly string[]
  against: readonly string[]
}>

/** A sign speaks for a cause from this factor on. */
const SPEAKS = 1.5

/**
 * The causes by their chance, the likeliest first: the share of each times the chance of every sign
 * that is there or not, as if signs came by themselves once the cause is known.
 *
 * @source naive-bayes
 * @limits signs do hang together, so chances come out too sure; the order is what to go by
 */
export function rankCauses(
  { yes, no }: Signs,
  { beliefs = USUAL_BELIEFS }: Readonly<{ beliefs?: Beliefs }> = {},
): readonly RankedCause[] {
  const { table, shareOf, chanceOf } = beliefs
  const weight = (cause: string): number =>
    shareOf(cause) *
    yes.reduce((product, sign) => product * chanceOf(sign, cause), 1) *
    no.reduce((product, sign) => product * (1 - chanceOf(sign, cause)), 1)
  const weights = [...table.causes.keys()].map((cause) => ({ cause, weight: weight(cause) }))
  const all = weights.reduce((sum, each) => sum + each.weight, 0)
  return weights
    .map(({ cause, weight: own }) => ({
      cause,
      chance: own / all,
      for: yes.filter((sign) => factor(sign, cause, beliefs) >= SPEAKS),
      against: [
        ...yes.filter((sign) => factor(sign, cause, beliefs) <= 1 / SPEAKS),
        ...no.filter((sign) => chanceOf(sign, cause) >= 0.3),
      ],
    }))
    .toSorted((a, b) => b.chance - a.chance)
}

export type TellingTest = Readonly<{
  sign: string
  how: string
  minutes: number
  /** The cause that a yes speaks for, and the one that a no does. */
  yes: string
  no: string
  /** What is learned of which of the two it is, on average. */
  bits: number
}>

/** Less than this is not worth anybody's walk. Judged. */
const LEAST_BITS = 0.03
/** Of tests that tell about as much, the quickest. */
const ABOUT = 0.85

/**
 * The one test that best tells the two likeliest causes apart: the greatest expected information on
 * which of the two it is. Null when none of the tests tells them apart.
 *
 * @source shannon1948
 */
export function tellingTest(
  ranked: readonly RankedCause[],
  { known, beliefs = USUAL_BELIEFS }: Readonly<{ known: Signs; beliefs?: Beliefs }>,
): TellingTest | null {
  const [first, second] = ranked
  if (first === undefined || second === undefined) return null
  const share = first.chance / (first.chance + second.chance)
  const told = new Set<string>([...known.yes, ...known.no])
  const tests = [...beliefs.table.signs].flatMap(([sign, { test }]): readonly TellingTest[] => {
    if (test === null || told.has(sign)) return []
    const one = beliefs.chanceOf(sign, first.cause)
    const other = beliefs.chanceOf(sign, second.cause)
    const [yes, no] = one >= other ? [first.cause, second.cause] : [second.cause, first.cause]
    return [{ sign, ...test, yes, no, bits: bitsOf(share, { one, other }) }]
  })
  const most = Math.max(0, ...tests.map(({ bits }) => bits))
  if (most < LEAST_BITS) return null
  return (
    tests.filter(({ bits }) => bits >= most * ABOUT).toSorted((a, b) => a.minutes - b.minutes)[0] ??
    null
  )
}

export type Asking = Readonly<{
  sign: string
  /** What an answer tells of which of all causes it is, on average. */
  bits: number
}>

/**
 * What to ask next of how a screen was made: of the signs that one knows and need not try, those
 * whose answer tells most of which cause it is, over all causes. `unsure` are those that nobody can
 * answer.
 *
 * @source shannon1948
 */
export function tellingQuestions(
  ranked: readonly RankedCause[],
  {
    known,
    unsure = [],
    most,
    beliefs = USUAL_BELIEFS,
  }: Readonly<{ known: Signs; unsure?: readonly string[]; most: number; beliefs?: Beliefs }>,
): readonly Asking[] {
  const told = new Set<string>([...known.yes, ...known.no, ...unsure])
  return [...beliefs.table.signs]
    .flatMap(([sign, { where, test }]): readonly Asking[] => {
      if (where !== 'known' || test !== null || told.has(sign)) return []
      const answers = ranked.map(({ cause, chance }) => ({
        chance,
        yes: beliefs.chanceOf(sign, cause),
      }))
      const mixed = answers.reduce((sum, { chance, yes }) => sum + chance * yes, 0)
      const stays = answers.reduce((sum, { chance, yes }) => sum + chance * entropy(yes), 0)
      return [{ sign, bits: entropy(mixed) - stays }]
    })
    .filter(({ bits }) => bits >= LEAST_BITS)
    .toSorted((a, b) => b.bits - a.bits)
    .slice(0, most)
}

/** What a yes or no tells of two causes: the entropy of the answer less that which stays. */
export function bitsOf(
  share: number,
  { one, other }: Readonly<{ one: number; other: number }>,
): number {
  const mixed = share * one + (1 - share) * other
  return entropy(mixed) - share * entropy(one) - (1 - share) * entropy(other)
}

function entropy(chance: number): number {
  const part = (p: number): number => (p <= 0 ? 0 : -p * Math.log2(p))
  return part(chance) + part(1 - chance)
}

function factor(sign: string, cause: string, { table, chanceOf }: Beliefs): number {
  return chanceOf(sign, cause) / (table.signs.get(sign)?.elsewhere ?? 1)
}
