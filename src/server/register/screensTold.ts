import type { ScreenLine } from '../../api/register.ts'
import { screenNext } from '../../core/register/next.ts'
import { byTag } from '../../core/register/rack.ts'
import type { OwedScreen } from '../../core/register/reclaimDay.ts'
import { countSheets, type Tally } from '../../core/ticket/sheets.ts'
import { type Coating, coatings } from '../../store/coatings.ts'
import type { Database } from '../../store/database/database.ts'
import { type Batch, batches, type Emulsion, emulsions } from '../../store/emulsions.ts'
import { type Fabric, fabrics } from '../../store/fabrics.ts'
import { type Frame, frames } from '../../store/frames.ts'
import { type Ink, inks } from '../../store/inks.ts'
import { type LayerEvent, layerEventsOf } from '../../store/layerEvents.ts'
import { allPeople, type Person } from '../../store/people.ts'
import { type Stencil, stencils } from '../../store/screenEvents.ts'
import { type Screen, screens } from '../../store/screens.ts'
import { tickets, type WholeTicket } from '../../store/tickets.ts'
import type { Told } from '../http/route.ts'
import { dayText } from '../shop/days.ts'
import { fabricName } from '../shop/lightThings.ts'

const MOST_TICKETS = 300

/** What screens are told with. */
export type ScreenThings = Readonly<{
  screens: readonly Screen[]
  fabrics: readonly Fabric[]
  frames: readonly Frame[]
  /** Also those who left. */
  people: readonly Person[]
  coatings: readonly Coating[]
  batches: readonly Batch[]
  emulsions: readonly Emulsion[]
  stencils: readonly Stencil[]
  tickets: readonly WholeTicket[]
  inks: readonly Ink[]
  events: readonly LayerEvent[]
}>

export async function screenThings(database: Database): Promise<ScreenThings> {
  const onScreens = await stencils(database)
  const layers = new Set(onScreens.map(({ layerId }) => layerId))
  const all = layers.size === 0 ? [] : await tickets(database, { limit: MOST_TICKETS })
  const meant = all.filter((whole) => whole.layers.some(({ id }) => layers.has(id)))
  return {
    screens: (await screens(database)).toSorted((a, b) => byTag(a.tag, b.tag)),
    fabrics: await fabrics(database),
    frames: await frames(database),
    people: await allPeople(database),
    coatings: await coatings(database),
    batches: await batches(database),
    emulsions: await emulsions(database),
    stencils: onScreens,
    tickets: meant,
    inks: meant.length === 0 ? [] : await inks(database),
    events: await layerEventsOf(
      database,
      meant.map(({ ticket }) => ticket.id),
    ),
  }
}

/** Who feels it later says that it is dry, not how long that took. Judged. */
const FRESH_MS = 12 * 3_600_000

/** Nobody felt yet whether a coat is dry, and it is fresh enough to tell how long that takes. */
export function isToFeel({ coatedAt, dryNotedAt }: Coating, now: Date): boolean {
  return dryNotedAt === null && now.getTime() - coatedAt.getTime() <= FRESH_MS
}

type Asks = Readonly<{ now: Date; meId: string | null }>

/** One screen in the words of the contract. */
export function screenTold(
  screen: Screen,
  things: ScreenThings,
  { now, meId }: Asks,
): Told<ScreenLine> {
  const { tag, state, rackSlot, keptUntil, haze, tensionNewtonPerCm, tensionMeasuredAt } = screen
  const fabric = things.fabrics.find(({ id }) => id === screen.fabricId)
  const owner = things.people.find(({ id }) => id === screen.ownerId)
  const coat = things.coatings.find(({ screenId }) => screenId === screen.id)
  const dryMs = coat?.dryAt?.getTime() ?? null
  const goodUntilMs = coat?.goodUntil?.getTime() ?? null
  return {
    id: screen.id,
    tag,
    state,
    next: screenNext({ is: state, dryMs, goodUntilMs }, now.getTime()),
    fabric: fabric === undefined ? '' : fabricName(fabric),
    frame: things.frames.find(({ id }) => id === screen.frameId)?.name ?? '',
    owner: owner === undefined ? null : { id: owner.id, name: owner.name },
    mine: meId !== null && owner?.id === meId,
    keptUntil: dayOrNull(keptUntil),
    rackSlot,
    haze,
    tension:
      tensionNewtonPerCm === null
        ? null
        : { newtonPerCm: tensionNewtonPerCm, on: dayOrNull(tensionMeasuredAt) },
    coat:
      coat === undefined
        ? null
        : {
            recipe: coat.recipe,
            bucket: bucketIn(things, coat.batchId),
            coatedOn: dayText(coat.coatedAt),
            dryAt: coat.dryAt?.toISOString() ?? null,
            isToFeel: isToFeel(coat, now),
            goodUntil: dayOrNull(coat.goodUntil),
          },
    stencil: stencilTold(screen, things),
  }
}

/** The same screen as reclaim day weighs it. */
export function owedOf(
  screen: Screen,
  { people, coatings: coats }: ScreenThings,
): OwedScreen & Readonly<{ record: Screen }> {
  const coat = coats.find(({ screenId }) => screenId === screen.id)
  return {
    record: screen,
    tag: screen.tag,
    is: screen.state,
    owner: people.find(({ id }) => id === screen.ownerId)?.name ?? null,
    keptUntilMs: screen.keptUntil?.getTime() ?? null,
    goodUntilMs: coat?.goodUntil?.getTime() ?? null,
    haze: screen.haze,
    tensionNewtonPerCm: screen.tensionNewtonPerCm,
  }
}

/** A bucket as people know it; with one emulsion in the shop its own name is enough. */
export function bucketIn(
  { batches: all, emulsions: kinds }: Pick<ScreenThings, 'batches' | 'emulsions'>,
  batchId: string | null,
): string | null {
  const batch = all.find(({ id }) => id === batchId)
  if (batch === undefined) return null
  const emulsion = kinds.find(({ id }) => id === batch.emulsionId)?.name
  return emulsion === undefined || kinds.length === 1 ? batch.name : `${emulsion}, ${batch.name}`
}

function stencilTold(
  { id, state }: Screen,
  { stencils: all, tickets: known, inks: colours, events }: ScreenThings,
): Told<ScreenLine>['stencil'] {
  const own = all.filter(({ screenId }) => screenId === id)
  const stencil = own.find(({ layerId }) => layerId !== null) ?? own[0]
  if (stencil === undefined || state === 'clean' || state === 'coated') return null
  const { litAt, filmId, filmName, layerId } = stencil
  const whole = known.find(({ layers }) => layers.some((layer) => layer.id === layerId))
  const layer = whole?.layers.find((each) => each.id === layerId)
  const ink = colours.find((each) => each.id === layer?.inkId)
  const tallies = events.filter(
    (event): event is LayerEvent & Tally => event.layerId === layerId && event.sheets !== null,
  )
  return {
    litOn: dayText(litAt),
    film: filmId === null ? null : { id: filmId, name: filmName ?? '' },
    layer:
      whole === undefined || layer === undefined
        ? null
        : {
            ticket: { id: whole.ticket.id, name: whole.ticket.name },
            ink:
              ink === undefined
                ? null
                : { id: ink.id, name: ink.name, lab: [ink.labL, ink.labA, ink.labB] },
            shortName: layer.shortName,
            pulled: countSheets(tallies).pulled,
            good: countSheets(tallies).good,
          },
  }
}

function dayOrNull(at: Date | null): string | null {
  return at === null ? null : dayText(at)
}
