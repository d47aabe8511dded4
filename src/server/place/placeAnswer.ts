import type {
  LaidFilm,
  NewPlacement,
  Place,
  PlaceCheck,
  PlaceCheckAsked,
  PlacementKept,
  PlaceQuestion,
} from '../../api/place.ts'
import { Failure } from '../../core/failure.ts'
import { checkPlaced } from '../../core/placement/check.ts'
import { dimensionLines } from '../../core/placement/dimensions.ts'
import { inTheMiddleOf } from '../../core/placement/onGlass.ts'
import type { Placement } from '../../core/placement/place.ts'
import { newestPlacement, type WholePlacement } from '../../store/placements.ts'
import { theShop } from '../../store/shop.ts'
import { type Laying, lightOn, problemOf, USUAL_CLEARANCE_MM } from '../../workflow/placeProblem.ts'
import type { Told } from '../http/route.ts'
import { dayText } from '../shop/days.ts'
import type { ShopService } from '../shop/shopService.ts'
import { usualScreen } from '../shop/usual.ts'
import { bestPlace } from './bestPlace.ts'
import { placeOffers } from './placeOffers.ts'
import {
  filmsAsked,
  filmsTold,
  glassTold,
  placeChoices,
  screenAmong,
  screensTold,
} from './placeThings.ts'

type Films = Told<Place['films']>
type Kept = PlacementKept['placement']

/** What is laid on what, and where it lies best. */
export async function placeOf(service: ShopService, question: PlaceQuestion): Promise<Told<Place>> {
  const { database } = service.store
  const asked = await filmsAsked(database, question)
  const { films, waiting } = await filmsTold(service, asked.films)
  const all = await screensTold(database)
  const wanted = question.screen ?? asked.screenId ?? (await usualScreenId(service))
  const screen = wanted === null ? null : screenAmong(all, wanted)
  const last = screen === null ? null : await newestPlacement(database, { screenId: screen.id })
  const known = last !== null && isOf(last, films) ? last : null
  const glass = await glassTold(database, question.unit ?? known?.placement.unitId ?? undefined)
  const kept = known === null ? null : keptTold(known)
  const clearance = {
    frameMm: question.frameMm ?? kept?.clearance.frameMm ?? USUAL_CLEARANCE_MM,
    betweenMm: question.betweenMm ?? kept?.clearance.betweenMm ?? USUAL_CLEARANCE_MM,
  }
  const onGlass = onGlassOf(question, { screen, glass, kept })
  const laying =
    screen === null
      ? null
      : { frame: screen, outside: screen.outside, films, clearance, glass, onGlass }
  return {
    kind: 'place',
    demo: (await theShop(database)).kind === 'demo',
    screen,
    films,
    waiting,
    clearance,
    glass,
    onGlass,
    best:
      laying === null || films.length === 0
        ? null
        : bestTold(await bestPlace(problemOf(laying)), films),
    kept,
    offers: asked.films.length === 0 ? await placeOffers(database) : null,
    choices: await placeChoices(database, all),
  }
}

async function usualScreenId(service: ShopService): Promise<string | null> {
  return usualScreen(await service.records())?.record.id ?? null
}

/** Whether a placement is of just these films. */
function isOf({ films: laid }: WholePlacement, films: Films): boolean {
  return (
    laid.length === films.length &&
    films.every(({ id }) => laid.some(({ filmId }) => filmId === id))
  )
}

function onGlassOf(
  { screenXMm, screenYMm, screenTurned }: PlaceQuestion,
  {
    screen,
    glass,
    kept,
  }: Readonly<{
    screen: Told<Place>['screen']
    glass: Told<Place>['glass']
    kept: Told<Kept> | null
  }>,
): Told<Place>['onGlass'] {
  if (screen === null || glass === null) return null
  const before = kept?.onGlass?.unit === glass.unit.id ? kept.onGlass : null
  const middle = before ?? inTheMiddleOf(glass, screen.outside)
  return {
    unit: glass.unit.id,
    xMm: screenXMm ?? middle.xMm,
    yMm: screenYMm ?? middle.yMm,
    turned: screenTurned === undefined ? middle.turned : screenTurned === 'true',
  }
}

function bestTold({ films: placed, ...best }: Placement, films: Films): Told<Place>['best'] {
  const laid = placed.flatMap(({ xMm, yMm, turned }, at) => {
    const film = films[at]
    return film === undefined ? [] : [{ film: film.id, xMm, yMm, turned }]
  })
  return { ...best, films: laid }
}

export function keptTold({ placement, films }: WholePlacement): Told<Kept> {
  const { id, unitId, leftMm, backMm, turned: isTurned, laidAt, createdAt } = placement
  const isOnGlass = unitId !== null && leftMm !== null && backMm !== null && isTurned !== null
  return {
    id,
    films: films.map(({ filmId, xMm, yMm, turned }) => ({ film: filmId, xMm, yMm, turned })),
    onGlass: isOnGlass ? { unit: unitId, xMm: leftMm, yMm: backMm, turned: isTurned } : null,
    clearance: { frameMm: placement.frameClearanceMm, betweenMm: placement.betweenClearanceMm },
    keptOn: dayText(createdAt),
    laidOn: laidAt === null ? null : dayText(laidAt),
  }
}

/** A screen with films laid on it by hand, as it was asked for. */
type LaidByHand = Readonly<{
  screen: NonNullable<Told<Place>['screen']>
  films: Films
  laid: readonly LaidFilm[]
  laying: Laying
  unit: string | null
}>

/**
 * What was laid by hand, with all that its rules rest on.
 *
 * @throws Failure 'not found' for what the shop does not have, 'wrong input' for a film twice or
 * one that is not read yet
 */
export async function laidByHand(
  service: ShopService,
  { screen: wanted, films: laid, clearance, onGlass }: PlaceCheckAsked | NewPlacement,
): Promise<LaidByHand> {
  const { database } = service.store
  const ids = laid.map(({ film }) => film)
  if (new Set(ids).size < ids.length) {
    const message = 'One film is laid twice: leave it out once, or bring a second copy of it.'
    throw new Failure('wrong input', message, { field: 'films' })
  }
  const asked = await filmsAsked(database, { films: ids.join(',') })
  const { films, waiting } = await filmsTold(service, asked.films)
  const [unread] = waiting
  if (unread !== undefined) {
    const message = `The film “${unread.name}” ${unread.why}: lay it once its size is known.`
    throw new Failure('wrong input', message, { field: 'films' })
  }
  const screen = screenAmong(await screensTold(database), wanted)
  const glass = onGlass === undefined ? null : await glassTold(database, onGlass.unit)
  const usual = { frameMm: USUAL_CLEARANCE_MM, betweenMm: USUAL_CLEARANCE_MM }
  const laying: Laying = {
    frame: screen,
    outside: screen.outside,
    films,
    clearance: clearance ?? usual,
    glass,
    onGlass: glass === null || onGlass === undefined ? null : onGlass,
  }
  return { screen, films, laid, laying, unit: glass?.unit.id ?? null }
}

export function checkTold({ films, laid, laying }: LaidByHand): Told<PlaceCheck> {
  const problem = problemOf(laying)
  const { verdict, rules, worst, offCentreMm } = checkPlaced(problem, laid)
  const named = (at: number): string => films[at]?.id ?? ''
  return {
    kind: 'place check',
    verdict,
    rules: rules.map((rule) => ({ ...rule, films: rule.films.map(named) })),
    worst: { rule: worst.rule, shortMm: verdict === 'fits' ? 0 : worst.shortMm },
    offCentreMm,
    light: lightOn(laying, laid),
    dimensions: dimensionLines(problem, laid).map(({ film, side, lengthMm, reaches }) => ({
      film: named(film),
      side,
      lengthMm,
      reaches,
    })),
  }
}
