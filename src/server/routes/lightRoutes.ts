import {
  type LightAnswer,
  type LightQuestion,
  lightAnswer,
  lightQuestion,
} from '../../api/light.ts'
import { PATHS } from '../../api/paths.ts'
import { Failure } from '../../core/failure.ts'
import { type Film, filmOf } from '../../store/films.ts'
import { plainWords } from '../../workflow/lampTime.ts'
import { lightFor } from '../../workflow/light.ts'
import type { LightExposure, LightSubject, ReadMarks } from '../../workflow/lightRecords.ts'
import { lightSetup } from '../../workflow/lightSetup.ts'
import type { ShopDoor } from '../door.ts'
import { keptFindings } from '../films/filmForecasts.ts'
import { byPhotoOf, readMarks } from '../films/filmMarks.ts'
import { type Route, route, type Told } from '../http/route.ts'
import { dayOf } from '../shop/days.ts'
import { exposureAsked, mediumAsked } from '../shop/exposureAsked.ts'
import type { ShopRecords } from '../shop/shopRecords.ts'
import type { ShopService } from '../shop/shopService.ts'
import { timeUnder } from '../shop/unitTimings.ts'
import { changesOf } from '../tests/changes.ts'

/** How much light? */
export function lightRoutes(door: ShopDoor): readonly Route[] {
  return [
    route({
      method: 'get',
      path: PATHS.light,
      summary:
        'how much light for a medium or a film on a base, on a screen, under a unit, and how sure; what is left out is usual; things are known by id or name',
      query: lightQuestion,
      answer: lightAnswer,
      run: ({ query }) => {
        const service = door.shop()
        return service.kept(`light ${JSON.stringify(query)}`, () => lightOf(service, query))
      },
    }),
  ]
}

/** What Light answers. @throws Failure for what the shop does not have */
export async function lightOf(
  service: ShopService,
  query: LightQuestion,
): Promise<Told<LightAnswer>> {
  const { medium, film } = query
  if (medium !== undefined && film !== undefined) {
    const message = 'A dose is for a medium or for a film: leave one of the two out.'
    throw new Failure('wrong input', message, { field: 'medium' })
  }
  const records = await service.records()
  const exposure = await exposureOf(service, { query, records })
  const { base, screen, unit, subject } = exposure
  const { belief, light: shop } = records
  const day = dayOf(service.now())
  const light = lightFor(lyingAt(exposure, { query, records }), { belief, shop, day })
  const changed = await changedFor(service, exposure, { records, day })
  const named = ({ id, name }: Readonly<{ id: string; name: string }>) => ({ id, name })
  return {
    kind: 'light',
    asked: {
      subject: { kind: subject.kind, ...named(subject) },
      base: named(base),
      screen: screen === null ? null : named(screen),
      unit: named(unit),
    },
    countsIn: unit.countsIn,
    ...light,
    lampTime: await secondsFor(service, unit, light.dose.value),
    changed,
  }
}

/** What the dose is in seconds, and how wrong those of a hot lamp would be for a cold one. */
async function secondsFor(
  service: ShopService,
  unit: LightExposure['unit'],
  count: number,
): Promise<Told<LightAnswer>['lampTime']> {
  const time = await timeUnder(service, unit, { count })
  if (time === null) return null
  const { coldSec, hotSec } = time
  return { coldSec, hotSec, says: plainWords(time, unit.countsIn) }
}

/** The exposure where the film lies on the glass. @throws Failure 'conflict' before any survey */
function lyingAt(
  exposure: LightExposure,
  { query: { place }, records }: Readonly<{ query: LightQuestion; records: ShopRecords }>,
): LightExposure {
  if (place === undefined) return exposure
  const { unit } = exposure
  const [xMm = 0, yMm = 0] = place.split(',').map(Number)
  const glassShare = records.glass.shareAt(unit.id, { xMm, yMm })
  if (glassShare !== null) return { ...exposure, unit: { ...unit, glassShare } }
  const message = `Nobody has measured yet how even the light is on the glass of ${unit.name}: lay wedges on it, or leave the place out.`
  throw new Failure('conflict', message, { field: 'place' })
}

/** The newest change that bears on this screen, as a sentence. */
async function changedFor(
  service: ShopService,
  { base, unit, screen }: LightExposure,
  { records, day }: Readonly<{ records: ShopRecords; day: number }>,
): Promise<string | null> {
  const { fabrics, batches, belief } = records
  const fabric = fabrics.find(({ id }) => id === screen?.fabric.id) ?? fabrics[0]
  if (fabric === undefined) return null
  const batch = batches.find(({ id }) => id === screen?.coating?.emulsion?.id) ?? null
  const setUp = { fabric, batch, exposure: { base, unit, screen } }
  const { changed } = await changesOf(service, { records, setUp, belief, day, isNow: true })
  return changed === null ? null : `${changed.headline} ${changed.sentence}`
}

async function exposureOf(
  service: ShopService,
  { query, records }: Readonly<{ query: LightQuestion; records: ShopRecords }>,
): Promise<LightExposure> {
  if (query.film === undefined) {
    const { id, name } = mediumAsked(records, query.medium)
    const things = exposureAsked(records, query, { filmBaseId: null })
    return { ...things, subject: { kind: 'medium', id, name } }
  }
  const film = await filmOf(service.store.database, query.film)
  const things = exposureAsked(records, query, { filmBaseId: film.baseId })
  const findings = await keptFindings(service, { film, setup: lightSetup(things) })
  return { ...things, subject: filmSubject(film, records, findings && readMarks(findings)) }
}

/** @throws Failure 'conflict' for a film without marks, or one that is not read */
function filmSubject(film: Film, { media }: ShopRecords, marks: ReadMarks | null): LightSubject {
  const { id, name, status, refusal, mediumId } = film
  if (status === 'refused') throw new Failure('conflict', refusal ?? UNREAD, { field: 'film' })
  if (status === 'waiting') throw new Failure('conflict', UNREAD, { field: 'film' })
  if (marks === null) throw new Failure('conflict', NO_MARKS, { field: 'film' })
  const medium = media.find((each) => each.id === mediumId)?.name ?? null
  return { kind: 'film', id, name, medium, marks, photo: byPhotoOf(film) }
}

const UNREAD = 'This film is still being read: ask again when it is ready, or ask for its medium.'
const NO_MARKS =
  'Nothing on this film is dense enough to be a mark: check that dark and clear are not swapped.'
