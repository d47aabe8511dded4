import { failures } from '../../store/diagnosisFailures.ts'
import { incidents } from '../../store/incidents.ts'
import { readings } from '../../store/readings.ts'
import { yearCounts } from '../../store/thingsCooling.ts'
import { dateWords, monthWords } from '../../workflow/papers/dayWords.ts'
import { capital, count } from '../../workflow/roomSentences.ts'
import { shopTable } from '../diagnosis/shopTable.ts'
import { dayText } from '../shop/days.ts'
import type { ShopService } from '../shop/shopService.ts'
import type { PaperSection } from './handoverTold.ts'
import { emulsionsSaid, lampFactsSaid, recordsSaid } from './roomRecords.ts'
import { thingsTold } from './thingsAnswer.ts'
import { outcomesSince, yearSaid, yearSince } from './yearSaid.ts'

const MOST_FAILURES = 1000
const MOST_INCIDENTS = 200

/** A year's report: what was done, how it came out month by month, why screens failed, what was hurt. */
export async function yearTold(service: ShopService): Promise<readonly PaperSection[]> {
  const { database } = service.store
  const since = yearSince(service.now())
  const [year] = await yearSaid(service)
  const { exposures, coats, pulled } = await yearCounts(database, { since })
  const { causeSays } = await shopTable(database)
  const failed = (await failures(database, { limit: MOST_FAILURES })).filter(
    ({ happenedAt }) => happenedAt >= since,
  )
  const told = (await incidents(database, { limit: MOST_INCIDENTS })).filter(
    ({ happenedAt }) => happenedAt >= since,
  )
  const { groups } = await thingsTold(service)
  const spent = groups
    .flatMap(({ sentences }) => sentences)
    .filter(({ thing }) => thing?.told.kind === 'supply' || thing?.told.kind === 'term')
  const sections: readonly PaperSection[] = [
    {
      title: 'What was done',
      lines: [
        `${count(coats, 'coat')}, ${count(exposures, 'exposure')} at the bench, ${count(pulled, 'sheet')} pulled.`,
        ...(year?.facts ?? []),
      ],
    },
    {
      title: 'How screens came out',
      lines: byMonth(outcomesSince(await readings(database), since)),
    },
    {
      title: 'Why screens failed',
      lines: [
        ...countsOf(failed.map(({ cause }) => (cause === null ? null : causeSays(cause)))),
      ].map(([cause, many]) => `${many} ${cause ?? 'not found out'}`),
    },
    {
      title: 'Lamps, emulsion and screens',
      lines: [
        ...(await lampFactsSaid(service)).map(({ says }) => says),
        ...(await emulsionsSaid(service)).map(({ says, facts }) => `${says} ${facts[0] ?? ''}`),
        ...(await recordsSaid(service, [])).slice(0, 2).map(({ says }) => says),
      ],
    },
    { title: 'What was used', lines: spent.map(({ says }) => says) },
    {
      title: 'Incidents',
      lines: told.map(
        ({ happenedAt, place, what, done, hurt }) =>
          `${dateWords(dayText(happenedAt))}. ${capital(place)}: ${what} ${done ?? ''} ${HURT[hurt]}`,
      ),
    },
  ]
  return sections.map(({ title, lines }) => ({
    title,
    lines: lines.length === 0 ? ['Nothing was written down.'] : lines,
  }))
}

const HURT = {
  nobody: 'Nobody was hurt.',
  nearly: 'Somebody was nearly hurt.',
  somebody: 'Somebody was hurt.',
} as const

/** September 2026: 31 of 38 screens were good. */
function byMonth(outcomes: readonly Readonly<{ at: Date; isGood: boolean }>[]): readonly string[] {
  const months = new Map<string, { all: number; good: number }>()
  for (const { at, isGood } of outcomes) {
    const month = dayText(at).slice(0, 7)
    const { all, good } = months.get(month) ?? { all: 0, good: 0 }
    months.set(month, { all: all + 1, good: good + (isGood ? 1 : 0) })
  }
  return [...months]
    .toSorted(([a], [b]) => a.localeCompare(b))
    .map(
      ([month, { all, good }]) =>
        `${monthWords(month)}: ${good} of ${count(all, 'screen')} were good.`,
    )
}

function countsOf<Value>(values: readonly Value[]): readonly (readonly [Value, number])[] {
  const counts = new Map<Value, number>()
  for (const value of values) counts.set(value, (counts.get(value) ?? 0) + 1)
  return [...counts].toSorted((a, b) => b[1] - a[1])
}
