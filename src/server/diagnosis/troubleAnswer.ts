import { runAbout } from '../../api/bench.ts'
import type { Trouble } from '../../api/diagnosis.ts'
import { signsOfShop } from '../../core/diagnosis/evidence.ts'
import { learnedBeliefs } from '../../core/diagnosis/learned.ts'
import { rankCauses, tellingQuestions, tellingTest } from '../../core/diagnosis/rank.ts'
import type { DiagnosisTable } from '../../core/diagnosis/table.ts'
import { failures } from '../../store/diagnosisFailures.ts'
import { recentRuns } from '../../store/diagnosisRuns.ts'
import { theShop } from '../../store/shop.ts'
import type { Told } from '../http/route.ts'
import { dayText } from '../shop/days.ts'
import type { ShopService } from '../shop/shopService.ts'
import { confirmedOf, MOST_LEARNED, signsIn } from './inTable.ts'
import { shopTable } from './shopTable.ts'
import { troubleEvidence } from './troubleEvidence.ts'

const MOST_CAUSES = 4
/** Less likely ones are not worth a line. */
const LEAST_CHANCE = 0.03
const MOST_RUNS = 12
const MOST_PAST = 12
const MOST_ASKS = 2

export type AskedTrouble = Readonly<{
  yes: readonly string[]
  no: readonly string[]
  unsure?: readonly string[]
  run: string | null
}>

/** Ranked causes of a failure from what is seen, what the shop knows and what it learned. */
export async function troubleTold(
  service: ShopService,
  { yes, no, unsure = [], run }: AskedTrouble,
): Promise<Told<Trouble>> {
  const { database } = service.store
  const { table, causeSays } = await shopTable(database)
  const known = await failures(database, { limit: MOST_LEARNED })
  const confirmed = confirmedOf(known, table)
  const beliefs = learnedBeliefs(confirmed, table)
  const told = signsOfShop(await troubleEvidence(service, run))
  const said = new Set<string>([...yes, ...no])
  const ofShop = (is: 'yes' | 'no'): readonly string[] =>
    told.flatMap((each) => (each.is === is && !said.has(each.sign) ? [each.sign] : []))
  const signs = { yes: [...yes, ...ofShop('yes')], no: [...no, ...ofShop('no')] }
  const ranked = yes.length === 0 ? [] : rankCauses(signs, { beliefs })
  const test = tellingTest(ranked, { known: signs, beliefs })
  const asks = tellingQuestions(ranked, { known: signs, unsure, most: MOST_ASKS, beliefs })
  const words = (sign: string): string => table.signs.get(sign)?.says ?? sign
  return {
    kind: 'trouble',
    demo: (await theShop(database)).kind === 'demo',
    signs: [...table.signs].map(([name, { where, says, test: how }]) => {
      return { name, where, says, isTest: how !== null }
    }),
    yes: [...yes],
    no: [...no],
    told,
    ranked: ranked
      .filter(({ chance }, at) => at < 2 || chance >= LEAST_CHANCE)
      .slice(0, MOST_CAUSES)
      .map(({ cause, chance, for: speaks, against }) => ({
        cause,
        chance,
        says: causeSays(cause),
        now: table.causes.get(cause)?.now ?? '',
        next: table.causes.get(cause)?.next ?? '',
        for: speaks.map(words),
        against: against.map(words),
      })),
    test:
      test === null
        ? null
        : {
            sign: test.sign,
            how: test.how,
            minutes: test.minutes,
            yes: causeSays(test.yes),
            no: causeSays(test.no),
          },
    asks: asks.map(({ sign }) => ({ sign, says: words(sign) })),
    learnedFrom: confirmed.length,
    runs: (await recentRuns(database, { limit: MOST_RUNS })).map(({ id, about, begunAt }) => {
      const { subject, screen, unit } = runAbout.parse(about)
      return { id, name: `${subject}, ${screen ?? unit}, ${dayText(begunAt)}` }
    }),
    causes: [...table.causes].map(([id, { says }]) => ({ id, name: says })),
    past: known.slice(0, MOST_PAST).map(({ id, happenedAt, guessed, cause }) => ({
      id,
      on: dayText(happenedAt),
      guessed: causeSays(guessed),
      cause: cause === null ? null : causeSays(cause),
    })),
  }
}

/**
 * Names of signs with commas between, each once.
 *
 * @throws Failure 'wrong input' for a sign that there is not
 */
export function signsAsked(
  text: string | undefined,
  { table, field }: Readonly<{ table: DiagnosisTable; field: 'yes' | 'no' | 'unsure' }>,
): readonly string[] {
  const names = (text ?? '')
    .split(',')
    .map((name) => name.trim())
    .filter((name) => name !== '')
  return signsIn(names, { table, field })
}
