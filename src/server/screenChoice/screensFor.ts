import type { ScreenChoice, ScreenQuestion } from '../../api/screenChoice.ts'
import { Failure } from '../../core/failure.ts'
import type { FilmAsked, ScreenAsked } from '../../core/screenChoice/asked.ts'
import { fitOf, rankScreens } from '../../core/screenChoice/choose.ts'
import { coatings } from '../../store/coatings.ts'
import type { Database } from '../../store/database/database.ts'
import { type Film, filmOf, filmsOfLayer } from '../../store/films.ts'
import { frames } from '../../store/frames.ts'
import { type Layer, tickets, type WholeTicket } from '../../store/tickets.ts'
import { screenReasons } from '../../workflow/screenChoiceWords.ts'
import { findingsThatCount, marksOf } from '../films/filmMarks.ts'
import type { Told } from '../http/route.ts'
import { dayText } from '../shop/days.ts'
import { fabricName } from '../shop/lightThings.ts'
import type { ShopService } from '../shop/shopService.ts'
import type { ShopScreen } from '../shop/shopThings.ts'
import { layersTold } from '../tickets/ticketAnswer.ts'
import { thingsFor } from '../tickets/ticketWhole.ts'

const MOST_TICKETS = 300
/** Of the equal shares of a film's marks: nine in ten are wider. */
const FINEST_SHARE = 0.1

/**
 * The shop's screens for a film or a layer, the best first.
 *
 * @throws Failure 'not found' for a film or a layer that the shop does not have, 'wrong input' where
 * neither is named
 */
export async function screensFor(
  service: ShopService,
  { film: filmId, layer: layerId, rulingPerCm, ink }: ScreenQuestion,
): Promise<Told<ScreenChoice>> {
  const { database } = service.store
  const records = await service.records()
  const now = service.now()
  const film = await filmAsked(database, { filmId, layerId })
  const of = film?.layerId ?? layerId ?? null
  const { takenBy, layer, whole } = await layersNow(database, of)
  if (layerId !== undefined && layer === null) throw notHere('layer')
  const asks = whole?.ticket.ownerId ?? film?.ownerId ?? null
  const asked: FilmAsked = {
    widthsUm: film === null ? null : widthsOf(film),
    sizeMm: sizeOf(film),
    rulingPerCm: rulingPerCm ?? null,
    ink: ink ?? null,
  }
  const known = await screensNow(service, { screens: records.screens, asks, takenBy })
  const names = new Map((await thingsFor(database, [])).people.map(({ id, name }) => [id, name]))
  const ranked = rankScreens(
    known.map(({ asked: screen }) => screen),
    { film: asked, nowMs: now.getTime() },
  )
  return {
    kind: 'screen choice',
    film:
      film === null
        ? null
        : {
            id: film.id,
            name: film.name,
            layer: layer?.shortName ?? null,
            ticket: whole?.ticket.id ?? null,
            finestMm: finestOf(asked.widthsUm),
          },
    screens: ranked.flatMap((each) => {
      const found = known.find(({ asked: { id } }) => id === each.id)
      if (found === undefined) return []
      const { record, fabric, light } = found.screen
      const dry = each.stands.is === 'drying' ? new Date(each.stands.dryAtMs).toISOString() : null
      return {
        id: record.id,
        name: light.name,
        fabric: fabricName(fabric),
        frame: found.frame,
        rackSlot: record.rackSlot,
        when: each.stands.when,
        dryAt: dry,
        fits: fitOf(each.holds),
        chosen: layer !== null && layer.screenId === record.id,
        reasons: screenReasons(each, {
          dayOf: (ms) => dayText(new Date(ms)),
          keptFor: names.get(record.ownerId ?? '') ?? null,
          takenBy: takenBy.get(record.id) ?? null,
        }),
      }
    }),
  }
}

/** Which layer that is not printed yet has a screen; null: none has. */
export async function layerWith(
  database: Database,
  { screenId, but }: Readonly<{ screenId: string; but: string }>,
): Promise<string | null> {
  return (await layersNow(database, but)).takenBy.get(screenId) ?? null
}

async function filmAsked(
  database: Database,
  { filmId, layerId }: Readonly<{ filmId: string | undefined; layerId: string | undefined }>,
): Promise<Film | null> {
  if (filmId !== undefined) return filmOf(database, filmId)
  if (layerId !== undefined) return (await filmsOfLayer(database, layerId))[0] ?? null
  throw new Failure('wrong input', 'Say for which film or which layer a screen is wanted.', {
    field: 'film',
  })
}

type LayersNow = Readonly<{
  /** Layers other than this one that are on their road, by the screen they have. */
  takenBy: ReadonlyMap<string, string>
  layer: Layer | null
  whole: WholeTicket | null
}>

async function layersNow(database: Database, layerId: string | null): Promise<LayersNow> {
  const all = await tickets(database, { limit: MOST_TICKETS })
  const things = await thingsFor(database, all)
  const takenBy = new Map<string, string>()
  for (const whole of all) {
    if (whole.ticket.closedAt !== null) continue
    const told = layersTold(whole, things)
    for (const { id, screenId, shortName } of whole.layers) {
      const at = told.find((each) => each.id === id)?.at ?? null
      if (screenId !== null && id !== layerId && at !== null) takenBy.set(screenId, shortName)
    }
  }
  const whole = all.find(({ layers }) => layers.some(({ id }) => id === layerId)) ?? null
  return { takenBy, whole, layer: whole?.layers.find(({ id }) => id === layerId) ?? null }
}

type ScreenNow = Readonly<{ screen: ShopScreen; asked: ScreenAsked; frame: string }>

async function screensNow(
  { store: { database }, records }: ShopService,
  {
    screens,
    asks,
    takenBy,
  }: Readonly<{
    screens: readonly ShopScreen[]
    asks: string | null
    takenBy: ReadonlyMap<string, string>
  }>,
): Promise<readonly ScreenNow[]> {
  const { batches } = await records()
  const expiry = new Map(batches.map(({ id, expiresAt }) => [id, expiresAt?.getTime() ?? null]))
  const frameOf = new Map((await frames(database)).map((frame) => [frame.id, frame]))
  const coats = new Map((await coatings(database)).map((coat) => [coat.screenId, coat]))
  return screens.flatMap((screen) => {
    const { record, fabric } = screen
    const frame = frameOf.get(record.frameId)
    if (frame === undefined) return []
    const coat = coats.get(record.id)
    const isOthers = record.ownerId !== null && record.ownerId !== asks
    const { threadsPerCm, threadUm } = fabric
    const asked: ScreenAsked = {
      id: record.id,
      weave: { threadsPerCm, threadUm },
      insideMm: { widthMm: frame.insideWidthMm, heightMm: frame.insideHeightMm },
      state: record.state,
      keptForOther: isOthers ? { untilMs: record.keptUntil?.getTime() ?? null } : null,
      taken: takenBy.has(record.id),
      coating:
        coat === undefined
          ? null
          : {
              coatedAtMs: coat.coatedAt.getTime(),
              dryAtMs: coat.dryAt?.getTime() ?? null,
              goodUntilMs: coat.goodUntil?.getTime() ?? null,
              bucketExpiresAtMs: expiry.get(coat.batchId ?? '') ?? null,
              overMeshUm: coat.eomUm,
            },
    }
    return { screen, asked, frame: frame.name }
  })
}

function widthsOf(film: Film): readonly number[] | null {
  const marks = marksOf(film)
  return marks === null ? null : (findingsThatCount(marks, film).widthsUm ?? null)
}

function sizeOf(film: Film | null): FilmAsked['sizeMm'] {
  if (film === null || film.widthMm === null || film.heightMm === null) return null
  return { widthMm: film.widthMm, heightMm: film.heightMm }
}

function finestOf(widthsUm: readonly number[] | null): number | null {
  if (widthsUm === null || widthsUm.length === 0) return null
  return (widthsUm[Math.floor(FINEST_SHARE * widthsUm.length)] ?? 0) / 1000
}

function notHere(field: string): Failure {
  const message = `There is no such ${field} in this shop: choose one that is there.`
  return new Failure('not found', message, { field })
}
