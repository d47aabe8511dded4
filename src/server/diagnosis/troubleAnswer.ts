import { runAbout } from '../../api/bench.ts'
import type { Trouble } from '../../api/diagnosis.ts'
import { CAUSE_NAMES, CAUSES, isCause } from '../../core/diagnosis/causes.ts'
import { signsOfShop } from '../../core/diagnosis/evidence.ts'
import { learnedBeliefs } from '../../core/diagnosis/learned.ts'
import { rankCauses, tellingTest } from '../../core/diagnosis/rank.ts'
import { SIGN_NAMES, type SignName } from '../../core/diagnosis/signNames.ts'
import { isSign, SIGNS } from '../../core/diagnosis/signs.ts'
import { Failure } from '../../core/failure.ts'
import { failures } from '../../store/diagnosisFailures.ts'
import { recentRuns } from '../../store/diagnosisRuns.ts'
import { theShop } from '../../store/shop.ts'
import type { Told } from '../http/route.ts'
import { dayText } from '../shop/days.ts'
import type { ShopService } from '../shop/shopService.ts'
import { troubleEvidence } from './troubleEvidence.ts'

const MOST_CAUSES = 4
/** Less likely ones are not worth a line. */
const LEAST_CHANCE = 0.03
const MOST_RUNS = 12
const MOST_LEARNED = 1000
const MOST_PAST = 12

export type AskedTrouble = Readonly<{
  yes: readonly SignName[]
  no: readonly SignName[]
  run: string | null
}>

/** Ranked causes of a failure from what is seen, what the shop knows and what it learned. */
export async function troubleTold(
  service: ShopService,
  { yes, no, run }: AskedTrouble,
): Promise<Told<Trouble>> {
  const { database } = service.store
  const known = await failures(database, { limit: MOST_LEARNED })
  const confirmed = known.flatMap(({ cause, ...signs }) =>
    cause === null || !isCause(cause)
      ? []
      : [{ cause, signs: { yes: signs.yes.filter(isSign), no: signs.no.filter(isSign) } }],
  )
  const beliefs = learnedBeliefs(confirmed)
  const told = signsOfShop(await troubleEvidence(service, run))
  const said = new Set<string>([...yes, ...no])
  const ofShop = (is: 'yes' | 'no'): readonly SignName[] =>
    told.flatMap((each) => (each.is === is && !said.has(each.sign) ? [each.sign] : []))
  const signs = { yes: [...yes, ...ofShop('yes')], no: [...no, ...ofShop('no')] }
  const ranked = yes.length === 0 ? [] : rankCauses(signs, { beliefs })
  const test = tellingTest(ranked, { known: signs, beliefs })
  return {
    kind: 'trouble',
    demo: (await theShop(database)).kind === 'demo',
    signs: SIGN_NAMES.map((name) => {
      const { where, says, test: asks } = SIGNS[name]
      return { name, where, says, isTest: asks !== null }
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
        says: CAUSES[cause].says,
        now: CAUSES[cause].now,
        next: CAUSES[cause].next,
        for: speaks.map((sign) => SIGNS[sign].says),
        against: against.map((sign) => SIGNS[sign].says),
      })),
    test:
      test === null
        ? null
        : {
            sign: test.sign,
            how: test.how,
            minutes: test.minutes,
            yes: CAUSES[test.yes].says,
            no: CAUSES[test.no].says,
          },
    learnedFrom: confirmed.length,
    runs: (await recentRuns(database, { limit: MOST_RUNS })).map(({ id, about, begunAt }) => {
      const { subject, screen, unit } = runAbout.parse(about)
      return { id, name: `${subject}, ${screen ?? unit}, ${dayText(begunAt)}` }
    }),
    causes: CAUSE_NAMES.map((id) => ({ id, name: CAUSES[id].says })),
    past: known.slice(0, MOST_PAST).map(({ id, happenedAt, guessed, cause }) => ({
      id,
      on: dayText(happenedAt),
      guessed: causeWords(guessed),
      cause: cause === null ? null : causeWords(cause),
    })),
  }
}

/** Names of signs with commas between. @throws Failure 'wrong input' for a sign that there is not */
export function signsAsked(text: string | undefined, field: 'yes' | 'no'): readonly SignName[] {
  const names = (text ?? '')
    .split(',')
    .map((name) => name.trim())
    .filter((name) => name !== '')
  return [...new Set(names)].map((name) => {
    if (isSign(name)) return name
    throw new Failure('wrong input', `There is no sign called “${name}”: take one from the list.`, {
      field,
    })
  })
}

function causeWords(cause: string): string {
  return isCause(cause) ? CAUSES[cause].says : cause
}
