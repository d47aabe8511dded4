import { isOwed, reclaimDay } from '../../core/register/reclaimDay.ts'
import { failures } from '../../store/diagnosisFailures.ts'
import { filmQueue } from '../../store/filmQueue.ts'
import { incidents } from '../../store/incidents.ts'
import { things } from '../../store/things.ts'
import { dateWords, dayName } from '../../workflow/papers/dayWords.ts'
import { capital, count } from '../../workflow/roomSentences.ts'
import { shopTable } from '../diagnosis/shopTable.ts'
import { owedOf, type ScreenThings, screenThings, screenTold } from '../register/screensTold.ts'
import { dayText } from '../shop/days.ts'
import type { ShopService } from '../shop/shopService.ts'
import { emulsionsSaid, lampFactsSaid } from './roomRecords.ts'
import { thingsTold } from './thingsAnswer.ts'

/** A heading of a paper and the lines under it. */
export type PaperSection = Readonly<{ title: string; lines: readonly string[] }>

const DAY_MS = 86_400_000
/** As on reclaim day. */
const GRACE_DAYS = 14
const LATELY_DAYS = 14
const MOST_NOTES = 3
const MOST_LINES = 60
const MOST_FAILURES = 200

/** What the next technician must know: notes, lamp, batches, screens out, overdue, faults, what to order. */
export async function handoverTold(service: ShopService): Promise<readonly PaperSection[]> {
  const { database } = service.store
  const now = service.now()
  const screens = await screenThings(database)
  const lamps = await lampFactsSaid(service)
  const batches = await emulsionsSaid(service)
  const { groups } = await thingsTold(service)
  const due = groups
    .flatMap(({ sentences }) => sentences)
    .filter(({ look, thing }) => look && thing?.told.kind === 'supply')
  return [
    { title: 'Noted', lines: await notes(service) },
    { title: 'The lamp', lines: lamps.flatMap(({ says, facts }) => [says, ...facts]) },
    {
      title: 'Emulsion',
      lines: batches.map(({ says, facts }) => [says, ...facts.slice(0, 1)].join(' ')),
    },
    { title: 'Screens out', lines: out(screens, now) },
    { title: 'Overdue', lines: overdue(screens, now) },
    { title: 'Faults', lines: await faults(service, screens) },
    { title: 'To order now', lines: due.map(({ says }) => says) },
    { title: 'Films that are waited for', lines: await waiting(service) },
  ].map(({ title, lines }) => ({ title, lines: shortened(lines) }))
}

async function notes({ store: { database } }: ShopService): Promise<readonly string[]> {
  const noted = (await things(database)).filter(({ kind }) => kind === 'handover')
  return noted
    .toReversed()
    .slice(0, MOST_NOTES)
    .map(({ name, changedAt, facts }) => {
      const { says, humidityShare } = facts as Readonly<{
        says: string
        humidityShare: number | null
      }>
      const damp =
        humidityShare === null ? '' : ` The room was at ${Math.round(humidityShare * 100)} %.`
      return `${dateWords(dayText(changedAt))}. ${name}: ${says}${damp}`
    })
}

/** With somebody, and not yet due. */
function out(all: ScreenThings, now: Date): readonly string[] {
  return all.screens
    .filter(({ state, ownerId }) => ownerId !== null && state !== 'clean')
    .filter((screen) => !isOwed(owedOf(screen, all), now.getTime()))
    .map((screen) => {
      const { tag, owner, state, keptUntil, rackSlot } = screenTold(screen, all, {
        now,
        meId: null,
      })
      const where = rackSlot === null ? '' : `, ${rackSlot}`
      const until = keptUntil === null ? '' : `, until ${dayName(keptUntil)}`
      return `${tag}: ${owner?.name ?? 'nobody'}, ${state}${where}${until}`
    })
}

function overdue(all: ScreenThings, now: Date): readonly string[] {
  const { owed, abandoned } = reclaimDay(
    all.screens.map((screen) => owedOf(screen, all)),
    { onMs: now.getTime(), graceDays: GRACE_DAYS },
  )
  return [
    ...owed.map(
      ({ owner, screens }) =>
        `${owner ?? 'Nobody’s'}: ${screens.length === 1 ? 'screen' : 'screens'} ${screens.map(({ tag }) => tag).join(', ')}`,
    ),
    ...(abandoned.length === 0
      ? []
      : [`Anybody may take: ${abandoned.map(({ tag }) => tag).join(', ')}`]),
  ]
}

/** Torn, lost and ghosted screens, failures and incidents of the last two weeks. */
async function faults(
  { store: { database }, now }: ShopService,
  { screens }: ScreenThings,
): Promise<readonly string[]> {
  const since = new Date(now().getTime() - LATELY_DAYS * DAY_MS)
  const { causeSays } = await shopTable(database)
  const tagsOf = (which: (screen: (typeof screens)[number]) => boolean): string =>
    screens
      .filter(which)
      .map(({ tag }) => tag)
      .join(', ')
  const states = [
    ['Torn', tagsOf(({ state }) => state === 'torn')],
    ['Nobody finds', tagsOf(({ state }) => state === 'lost')],
    ['With a ghost', tagsOf(({ haze, state }) => haze && state !== 'torn')],
  ] as const
  const failed = (await failures(database, { limit: MOST_FAILURES })).filter(
    ({ happenedAt }) => happenedAt >= since,
  )
  const told = (await incidents(database, { limit: MOST_LINES })).filter(
    ({ happenedAt }) => happenedAt >= since,
  )
  return [
    ...states.flatMap(([what, tags]) => (tags === '' ? [] : [`${what}: ${tags}`])),
    ...failed.map(
      ({ happenedAt, cause, guessed }) =>
        `${dateWords(dayText(happenedAt))}. A screen failed: ${causeSays(cause ?? guessed)}${cause === null ? ', it is thought' : ''}.`,
    ),
    ...told.map(
      ({ happenedAt, place, what, done }) =>
        `${dateWords(dayText(happenedAt))}. ${capital(place)}: ${what}${done === null ? '' : ` ${done}`}`,
    ),
  ]
}

async function waiting({ store: { database }, now }: ShopService): Promise<readonly string[]> {
  const films = (await filmQueue(database, { leftSince: now() })).filter(
    ({ leftAt }) => leftAt === null,
  )
  return films.map(
    ({ what, askedAt, madeAt }) =>
      `${what}, asked for on ${dateWords(dayText(askedAt))}${madeAt === null ? '' : ', made'}`,
  )
}

function shortened(lines: readonly string[]): readonly string[] {
  if (lines.length === 0) return ['Nothing.']
  if (lines.length <= MOST_LINES) return lines
  return [...lines.slice(0, MOST_LINES), `And ${count(lines.length - MOST_LINES, 'more line')}.`]
}
