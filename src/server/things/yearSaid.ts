import { failures } from '../../store/diagnosisFailures.ts'
import { readings, type WholeReading } from '../../store/readings.ts'
import { yearCounts } from '../../store/thingsCooling.ts'
import { dateWords } from '../../workflow/papers/dayWords.ts'
import { count } from '../../workflow/roomSentences.ts'
import { shopTable } from '../diagnosis/shopTable.ts'
import { dayText } from '../shop/days.ts'
import type { ShopService } from '../shop/shopService.ts'
import { plain, type Sentence } from './roomRecords.ts'

const DAY_MS = 86_400_000
const YEAR_DAYS = 365
const MOST_FAILURES = 1000

/** A year's report: what was done, how it came out, what went wrong. */
export async function yearSaid({
  store: { database },
  now,
}: ShopService): Promise<readonly Sentence[]> {
  const since = yearSince(now())
  const done = await yearCounts(database, { since })
  const grades = outcomesSince(await readings(database), since).map(({ isGood }) => isGood)
  const good = grades.filter(Boolean).length
  const causes = new Map<string, number>()
  for (const { cause, happenedAt } of await failures(database, { limit: MOST_FAILURES })) {
    if (cause !== null && happenedAt >= since) causes.set(cause, (causes.get(cause) ?? 0) + 1)
  }
  const { causeSays } = await shopTable(database)
  const [commonest] = [...causes].toSorted((a, b) => b[1] - a[1])
  return [
    plain('year', {
      says: `In a year ${count(done.coats, 'coat')}, ${count(done.exposures, 'exposure')} at the bench and ${count(done.pulled, 'sheet')} pulled.`,
      facts: [
        `Since ${dateWords(dayText(since))}.`,
        grades.length === 0
          ? 'Nobody told how screens came out.'
          : `Of ${count(grades.length, 'screen')} that somebody looked at, ${good} were good.`,
        `${count(done.failures, 'failure')} and ${count(done.incidents, 'incident')} were taken down.`,
        ...(commonest === undefined
          ? []
          : [
              `The commonest cause: ${causeSays(commonest[0]).toLowerCase()}, ${commonest[1]} of them.`,
            ]),
      ],
    }),
  ]
}

export function yearSince(now: Date): Date {
  return new Date(now.getTime() - YEAR_DAYS * DAY_MS)
}

/** How screens came out that somebody looked at since a moment. */
export function outcomesSince(
  all: readonly WholeReading[],
  since: Date,
): readonly Readonly<{ at: Date; isGood: boolean }>[] {
  return all.flatMap(({ reading, bands }) =>
    reading.kind === 'outcome' && reading.takenAt >= since
      ? bands.slice(0, 1).map(({ grade, ground, marks }) => ({
          at: reading.takenAt,
          isGood: grade === 'good' || (ground === 'sound' && marks === 'open'),
        }))
      : [],
  )
}
