import { PATHS } from '../../api/paths.ts'
import {
  glassTold as glassAnswer,
  MOST_SCREENS_ASKED,
  newGlassMark,
  newPlacement,
  place,
  placeCheck,
  placeCheckAsked,
  placementKept,
  placeQuestion,
  screensOnGlass,
  screensQuestion,
} from '../../api/place.ts'
import { Failure } from '../../core/failure.ts'
import { screensOnGlassProblem } from '../../core/placement/onGlass.ts'
import type { Database } from '../../store/database/database.ts'
import { addGlassMark, addPlacement, glassMarkIsGone } from '../../store/placements.ts'
import type { ShopDoor } from '../door.ts'
import { type Route, route } from '../http/route.ts'
import { bestPlace } from '../place/bestPlace.ts'
import { checkTold, keptTold, laidByHand, placeOf } from '../place/placeAnswer.ts'
import { glassTold, screenAmong, screensTold } from '../place/placeThings.ts'

/** Films on a screen, screens on a glass, and what is on that glass. */
export function placeRoutes(door: ShopDoor): readonly Route[] {
  const database = (): Database => door.shop().store.database
  return [
    route({
      method: 'get',
      path: PATHS.place,
      summary: 'where films lie best on a screen, and by how much they miss where they do not fit',
      query: placeQuestion,
      answer: place,
      run: async ({ query }) => placeOf(door.shop(), query),
    }),
    route({
      method: 'post',
      path: PATHS.placeCheck,
      summary: 'holds films laid by hand against each rule, and says what a ruler shows',
      body: placeCheckAsked,
      answer: placeCheck,
      run: async ({ body }) => checkTold(await laidByHand(door.shop(), body)),
    }),
    route({
      method: 'post',
      path: PATHS.place,
      summary: 'keeps how films are laid on a screen; the newest holds',
      body: newPlacement,
      answer: placementKept,
      status: 201,
      run: async ({ body }) => {
        const service = door.shop()
        const { screen, laid, laying, unit } = await laidByHand(service, body)
        const { onGlass, clearance } = laying
        const at = service.now()
        const kept = await addPlacement(
          database(),
          {
            placement: {
              screenId: screen.id,
              unitId: unit,
              leftMm: onGlass?.xMm ?? null,
              backMm: onGlass?.yMm ?? null,
              turned: onGlass?.turned ?? null,
              frameClearanceMm: clearance.frameMm,
              betweenClearanceMm: clearance.betweenMm,
              laidAt: body.laid ? at : null,
            },
            films: laid.map(({ film, ...where }) => ({ filmId: film, ...where })),
          },
          { at },
        )
        return { kind: 'placement' as const, placement: keptTold(kept) }
      },
    }),
    route({
      method: 'get',
      path: PATHS.placeScreens,
      summary: 'where screens lie best on a unit’s glass, each whole on it',
      query: screensQuestion,
      answer: screensOnGlass,
      run: async ({ query }) => {
        const glass = await wholeGlass(database(), query.unit)
        const wanted = [...new Set(query.screens.split(',').filter((id) => id !== ''))]
        if (wanted.length === 0 || wanted.length > MOST_SCREENS_ASKED) {
          const message = `On one glass 1 to ${MOST_SCREENS_ASKED} screens are laid; here are ${wanted.length}.`
          throw new Failure('wrong input', message, { field: 'screens' })
        }
        const all = await screensTold(database())
        const screens = wanted.map((id) => screenAmong(all, id))
        const best = await bestPlace(screensOnGlassProblem(glass, screens))
        const { films, ...answered } = best
        return {
          kind: 'screens on the glass' as const,
          glass,
          screens,
          best: {
            ...answered,
            screens: films.map(({ xMm, yMm, turned }, at) => ({
              screen: screens[at]?.id ?? '',
              xMm,
              yMm,
              turned,
            })),
          },
        }
      },
    }),
    route({
      method: 'post',
      path: PATHS.glassMarks,
      summary:
        'something on a unit’s glass that light should not cross: a scratch, a chip, a stain',
      body: newGlassMark,
      answer: glassAnswer,
      status: 201,
      run: async ({ body: { unit, ...mark } }) => {
        const glass = await wholeGlass(database(), unit)
        if (mark.xMm + mark.widthMm > glass.widthMm || mark.yMm + mark.heightMm > glass.heightMm) {
          const message = `That reaches beyond the glass, which is ${glass.widthMm} by ${glass.heightMm} mm: measure again from its back left corner.`
          throw new Failure('wrong input', message, { field: 'xMm' })
        }
        await addGlassMark(
          database(),
          { unitId: glass.unit.id, ...mark },
          { at: door.shop().now() },
        )
        return { kind: 'glass' as const, glass: await wholeGlass(database(), unit) }
      },
    }),
    route({
      method: 'delete',
      path: `${PATHS.glassMarks}/{mark}`,
      summary: 'the glass is clean there again: kept on record, and no longer kept clear of',
      answer: glassAnswer,
      run: async ({ place: part }) => {
        const { unitId } = await glassMarkIsGone(database(), part('mark'), {
          at: door.shop().now(),
        })
        return { kind: 'glass' as const, glass: await wholeGlass(database(), unitId) }
      },
    }),
  ]
}

async function wholeGlass(database: Database, unit: string | undefined) {
  const glass = await glassTold(database, unit)
  if (glass !== null) return glass
  const message =
    'Nobody told how large the glass of this unit is: say so where its light is measured.'
  throw new Failure('wrong input', message, { field: 'unit' })
}
