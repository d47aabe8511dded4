import type { Glass, Place, PlaceQuestion } from '../../api/place.ts'
import { MOST_FILMS_ASKED, STILL_READ } from '../../api/place.ts'
import { Failure, isFailure } from '../../core/failure.ts'
import { evennessFromWedges } from '../../core/light/evennessFromWedges.ts'
import { outsideOf } from '../../core/placement/onGlass.ts'
import { STATIONS } from '../../core/ticket/road.ts'
import type { Database } from '../../store/database/database.ts'
import { newestSurveys, type WholeSurvey } from '../../store/evenness.ts'
import { fabrics } from '../../store/fabrics.ts'
import { type Film, filmOf, films } from '../../store/films.ts'
import { type Frame, frames } from '../../store/frames.ts'
import { inks } from '../../store/inks.ts'
import { glassMarks } from '../../store/placements.ts'
import { type Screen, screens } from '../../store/screens.ts'
import { type Layer, ticketOf, tickets } from '../../store/tickets.ts'
import { units } from '../../store/units.ts'
import type { Told } from '../http/route.ts'
import { fabricName } from '../shop/lightThings.ts'
import type { ShopService } from '../shop/shopService.ts'
import { layersTold } from '../tickets/ticketAnswer.ts'
import { thingsFor } from '../tickets/ticketWhole.ts'
import { filmMarks } from './filmMarks.ts'

const MOST_TICKETS = 300
const MOST_FILMS = 300
/** A layer whose film is to be exposed yet. */
const BEFORE_WATER = STATIONS.indexOf('water')

type FilmTold = Told<Place['films'][number]>
type ScreenTold = Told<NonNullable<Place['screen']>>

/** The films that are asked about, and the screen that their layers have. */
export async function filmsAsked(
  database: Database,
  { ticket, films: ids }: Pick<PlaceQuestion, 'ticket' | 'films'>,
): Promise<Readonly<{ films: readonly Film[]; screenId: string | null }>> {
  if (ids !== undefined && ids !== '') {
    const wanted = [...new Set(ids.split(',').filter((id) => id !== ''))]
    if (wanted.length > MOST_FILMS_ASKED) {
      const message = `Of films at most ${MOST_FILMS_ASKED} are laid on one screen; here are ${wanted.length}.`
      throw new Failure('wrong input', message, { field: 'films' })
    }
    const found: Film[] = []
    for (const id of wanted) found.push(await filmOf(database, id))
    const layerIds = new Set(found.map(({ layerId }) => layerId))
    const layers = (await allLayers(database)).filter(({ id }) => layerIds.has(id))
    return { films: found, screenId: layers.find((layer) => layer.screenId)?.screenId ?? null }
  }
  if (ticket === undefined) return { films: [], screenId: null }
  const whole = await ticketOf(database, ticket)
  const told = layersTold(whole, await thingsFor(database, [whole]))
  const open = told.filter(({ at }) => at !== null && STATIONS.indexOf(at) < BEFORE_WATER)
  const found: Film[] = []
  for (const { film } of open) if (film !== null) found.push(await filmOf(database, film.id))
  const chosen = whole.layers.find(
    ({ id, screenId }) => screenId && open.some((each) => each.id === id),
  )
  return { films: found, screenId: chosen?.screenId ?? null }
}

async function allLayers(database: Database): Promise<readonly Layer[]> {
  return (await tickets(database, { limit: MOST_TICKETS })).flatMap(({ layers }) => layers)
}

/** Films with what of them has marks; those that are not read yet stand apart. */
export async function filmsTold(
  { store }: Pick<ShopService, 'store'>,
  asked: readonly Film[],
): Promise<Readonly<{ films: readonly FilmTold[]; waiting: Told<Place['waiting']> }>> {
  const { database } = store
  const [layers, allInks] = [await allLayers(database), await inks(database)]
  const told: FilmTold[] = []
  const waiting: { id: string; name: string; why: string }[] = []
  for (const film of asked) {
    const { id, name, widthMm, heightMm } = film
    if (film.status === 'refused' || widthMm === null || heightMm === null) {
      waiting.push({ id, name, why: film.refusal ?? STILL_READ })
      continue
    }
    const layer = layers.find((each) => each.id === film.layerId)
    const ink = allInks.find((each) => each.id === layer?.inkId)
    const marks = await filmMarks(store, film)
    told.push({
      id,
      name,
      layer: layer?.shortName ?? null,
      ink:
        ink === undefined
          ? null
          : {
              id: ink.id,
              name: ink.name,
              lab: [ink.labL, ink.labA, ink.labB],
              opacity: ink.opacity,
            },
      widthMm,
      heightMm,
      marks: marks?.box ?? null,
      outline:
        marks?.outline.map((part) =>
          part.map(({ xMm, yMm }): [number, number] => [tenths(xMm), tenths(yMm)]),
        ) ?? null,
    })
  }
  return { films: told, waiting }
}

/** All screens in use with their frames, told. */
export async function screensTold(database: Database): Promise<readonly ScreenTold[]> {
  const [all, sizes, cloths] = [
    await screens(database),
    await frames(database),
    await fabrics(database),
  ]
  return all.flatMap((screen) => {
    const frame = sizes.find(({ id }) => id === screen.frameId)
    const fabric = cloths.find(({ id }) => id === screen.fabricId)
    return frame === undefined
      ? []
      : [screenTold(screen, { frame, cloth: fabric === undefined ? '' : fabricName(fabric) })]
  })
}

function screenTold(
  { id, tag, state }: Screen,
  { frame, cloth }: Readonly<{ frame: Frame; cloth: string }>,
): ScreenTold {
  const { insideWidthMm, insideHeightMm, outsideWidthMm, outsideHeightMm } = frame
  return {
    id,
    name: tag,
    about: `${cloth}, ${round(insideWidthMm)} by ${round(insideHeightMm)} mm inside, ${state}`,
    insideWidthMm,
    insideHeightMm,
    outside: {
      ...outsideOf(frame),
      measured: outsideWidthMm !== null && outsideHeightMm !== null,
    },
  }
}

/** To a tenth of a micrometre. */
function tenths(mm: number): number {
  return Number(mm.toFixed(4))
}

function round(mm: number): string {
  return String(Number(mm.toFixed(1)))
}

/** @throws Failure 'not found' for a screen that the shop does not have */
export function screenAmong(all: readonly ScreenTold[], asked: string): ScreenTold {
  const found = all.find(({ id, name }) => id === asked || name === asked)
  if (found !== undefined) return found
  const message = 'There is no such screen in use in this shop: choose one that is there.'
  throw new Failure('not found', message, { field: 'screen' })
}

/** A unit’s glass; null where nobody told how large it is. @throws Failure 'not found' */
export async function glassTold(
  database: Database,
  asked: string | undefined,
): Promise<Told<Glass> | null> {
  const all = await units(database)
  const found =
    asked === undefined ? all[0] : all.find(({ unit }) => unit.id === asked || unit.name === asked)
  if (found === undefined) {
    if (asked === undefined) return null
    const message = 'There is no such exposure unit in this shop: choose one that is there.'
    throw new Failure('not found', message, { field: 'unit' })
  }
  const { id, name, glassWidthMm, glassHeightMm } = found.unit
  if (glassWidthMm === null || glassHeightMm === null) return null
  const marks = await glassMarks(database, { unitId: id })
  const survey = (await newestSurveys(database)).find(({ survey: { unitId } }) => unitId === id)
  return {
    unit: { id, name },
    widthMm: glassWidthMm,
    heightMm: glassHeightMm,
    marks: marks.map(({ id: mark, what, xMm, yMm, widthMm, heightMm }) => ({
      id: mark,
      what,
      xMm,
      yMm,
      widthMm,
      heightMm,
    })),
    light: survey === undefined ? null : lightOf(survey),
  }
}

function lightOf({ survey, wedges }: WholeSurvey): Told<Glass>['light'] {
  const { steps, firstDensity, increment } = survey
  const read = wedges.map(({ firstClearStep, ...place }) => ({
    ...place,
    firstClearStep: firstClearStep ?? undefined,
  }))
  try {
    const { map } = evennessFromWedges(read, { wedge: { steps, firstDensity, increment } })
    return { low: map.low, high: map.high, coefficients: map.coefficients }
  } catch (cause) {
    if (isFailure(cause, 'wrong input')) return null
    throw cause
  }
}

/** What fills the blanks. */
export async function placeChoices(
  database: Database,
  all: readonly ScreenTold[],
): Promise<Told<Place['choices']>> {
  const layers = await allLayers(database)
  return {
    screens: all.map(({ id, name, about }) => ({ id, name, about })),
    films: (await films(database, { limit: MOST_FILMS })).map((film) => ({
      id: film.id,
      name: film.name,
      about: layers.find(({ id }) => id === film.layerId)?.shortName ?? null,
      not: { waiting: 'being read', refused: 'could not be read', ready: null }[film.status],
    })),
    units: (await units(database)).map(({ unit: { id, name } }) => ({ id, name })),
  }
}
