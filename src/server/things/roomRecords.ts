import type { RoomSentence } from '../../api/things.ts'
import { leakSentences } from '../../core/caution/leakingLid.ts'
import { allCoatings } from '../../store/coatings.ts'
import { emulsions, openBatches } from '../../store/emulsions.ts'
import { films } from '../../store/films.ts'
import { people } from '../../store/people.ts'
import { glassMarks } from '../../store/placements.ts'
import { screens } from '../../store/screens.ts'
import { type Cooling, coolings } from '../../store/thingsCooling.ts'
import { units } from '../../store/units.ts'
import { lastUpkeep } from '../../store/upkeep.ts'
import { dateWords } from '../../workflow/papers/dayWords.ts'
import { batchSaid, count, dryingSaid, lampSaid } from '../../workflow/roomSentences.ts'
import { dryingMinutes } from '../diagnosis/troubleEvidence.ts'
import type { Told } from '../http/route.ts'
import { dayText } from '../shop/days.ts'
import type { ShopService } from '../shop/shopService.ts'

export type Sentence = Told<RoomSentence>

const COOL_MS = 600_000
/** A clock that was a little early is no broken cool-down. */
const EARLY_MS = 15_000
const MOST_FILMS = 500
const BACKUP_DAYS = 7
const DAY_MS = 86_400_000

/** Each exposure unit: its lamp's hours, its cool-downs, and the limits beside a lid that leaks. */
export async function lampsSaid(service: ShopService): Promise<readonly Sentence[]> {
  const lamps = (await lampFactsSaid(service)).map((said) => ({
    ...said,
    facts: [...said.facts, ...leakSentences()],
  }))
  return [...lamps, ...(await glassesSaid(service))]
}

/** Each glass with the places that are marked on its map. */
async function glassesSaid({ store: { database } }: ShopService): Promise<readonly Sentence[]> {
  const said: Sentence[] = []
  for (const { unit } of await units(database)) {
    const marks = await glassMarks(database, { unitId: unit.id })
    const places =
      marks.length === 0 ? 'nothing is marked' : `${count(marks.length, 'place')} marked`
    said.push(
      plain(`glass-${unit.id}`, {
        says: `The glass of ${unit.name}: ${places}.`,
        facts: ['Its map is drawn where films are laid; what is marked there is kept clear of.'],
        to: `/place?unit=${encodeURIComponent(unit.id)}`,
      }),
    )
  }
  return said
}

/** The same without those limits. */
export async function lampFactsSaid({
  store: { database },
}: ShopService): Promise<readonly Sentence[]> {
  const cooled = await coolings(database)
  return (await units(database)).map(({ unit, lamp }) => {
    const { id, name, glassWidthMm, glassHeightMm } = unit
    const { kept, broken } = cooledUnder(cooled, id)
    const said = lampSaid({
      unit: name,
      hours: lamp?.litHours ?? null,
      kept,
      broken,
      fittedOn: lamp === null ? null : dayText(lamp.fittedAt),
      glass:
        glassWidthMm === null || glassHeightMm === null
          ? null
          : `${Math.round(glassWidthMm)} by ${Math.round(glassHeightMm)} mm`,
    })
    return plain(`unit-${id}`, { ...said, to: `/tests/lamp?unit=${encodeURIComponent(id)}` })
  })
}

/** What is open of the emulsions, with their coats. */
export async function emulsionsSaid({
  store: { database },
  now,
}: ShopService): Promise<readonly Sentence[]> {
  const known = await emulsions(database)
  const coatings = await allCoatings(database)
  const open = await openBatches(database)
  return open.map(({ id, emulsionId, name, mixedAt, expiresAt }) => {
    const said = batchSaid({
      emulsion: known.find((each) => each.id === emulsionId)?.name ?? 'an emulsion',
      name,
      mixedOn: dayText(mixedAt),
      expiresOn: expiresAt === null ? null : dayText(expiresAt),
      coats: coatings.filter(({ batchId }) => batchId === id).length,
      today: dayText(now()),
    })
    return plain(`batch-${id}`, { ...said, to: '/tests' })
  })
}

/** How long screens dry, the machines, the screens, films, people and data there are. */
export async function recordsSaid(
  service: ShopService,
  stations: readonly Sentence[],
): Promise<readonly Sentence[]> {
  const { database } = service.store
  const drying = dryingSaid(dryingMinutes(await allCoatings(database)))
  const all = await screens(database)
  const states = new Map<string, number>()
  for (const { state } of all) states.set(state, (states.get(state) ?? 0) + 1)
  const kept = (await films(database, { limit: MOST_FILMS })).length
  const here = (await people(database)).length
  const { backup } = await lastUpkeep(database)
  const isOld = backup === null || service.now().getTime() - backup.getTime() > BACKUP_DAYS * DAY_MS
  return [
    plain('drying', drying),
    ...stations,
    plain('screens', {
      says: screensSaid(states),
      facts: ['Each has its tag, place and owner on the page of screens.'],
      to: '/screens',
    }),
    plain('films', {
      says: filmsSaid(kept),
      facts: ['They lie on Light and on their tickets.'],
      to: '/tickets',
    }),
    plain('people', {
      says: peopleSaid(here),
      facts: ['Who may use what stands on the page of people.'],
      to: '/people',
    }),
    plain('backup', {
      says:
        backup === null
          ? 'The data was never backed up.'
          : `The data was backed up on ${dateWords(dayText(backup))}.`,
      look: isOld,
      facts: ['yellowroom backup --out FILE, on the shop’s computer, writes one file.'],
    }),
  ]
}

function screensSaid(states: ReadonlyMap<string, number>): string {
  if (states.size === 0) return 'No screen is written down yet.'
  const all = [...states.values()].reduce((sum, many) => sum + many, 0)
  const each = [...states].map(([state, many]) => `${many} ${state}`)
  return `${count(all, 'screen')}: ${each.join(', ')}.`
}

function filmsSaid(kept: number): string {
  if (kept === 0) return 'No film is kept yet.'
  if (kept === 1) return '1 film is kept.'
  return `${kept === MOST_FILMS ? `${kept} films or more` : `${kept} films`} are kept.`
}

function peopleSaid(here: number): string {
  if (here === 0) return 'Nobody is written down yet.'
  return here === 1 ? '1 person works here.' : `${here} people work here.`
}

function cooledUnder(
  all: readonly Cooling[],
  unitId: string,
): Readonly<{ kept: number; broken: number }> {
  let [kept, broken] = [0, 0]
  const out = new Map<string, number>()
  for (const { unitId: unit, runId, step, happenedAt } of all) {
    if (unit !== unitId) continue
    if (step === 'lamp') {
      out.set(runId, happenedAt.getTime())
      continue
    }
    const since = out.get(runId)
    if (since === undefined) continue
    if (happenedAt.getTime() - since >= COOL_MS - EARLY_MS) kept += 1
    else broken += 1
  }
  return { kept, broken }
}

/** A sentence of records that have pages of their own. */
export function plain(
  id: string,
  { says, look = false, facts, to = null }: Partial<Sentence> & Pick<Sentence, 'says' | 'facts'>,
): Sentence {
  return { id, says, look, facts, to, paper: null, thing: null }
}
