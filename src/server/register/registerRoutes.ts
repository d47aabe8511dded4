import { PATHS } from '../../api/paths.ts'
import {
  coated,
  feltDry,
  newCoatings,
  newDry,
  newScreens,
  type Register,
  reclaimList,
  reclaimQuestion,
  register,
  type ScreenAct,
  type ScreenPage,
  screenAct,
  screenPage,
} from '../../api/register.ts'
import type { MachineAct } from '../../core/register/machines.ts'
import { nextTags, slotOf, slotsAround } from '../../core/register/rack.ts'
import { reclaimDay } from '../../core/register/reclaimDay.ts'
import { screenEvents } from '../../store/screenEvents.ts'
import { screenWithTag } from '../../store/screens.ts'
import { theShop } from '../../store/shop.ts'
import type { ShopDoor } from '../door.ts'
import { type Route, route, type Told } from '../http/route.ts'
import { expectShown } from '../people/expectShown.ts'
import type { PeopleKeeper } from '../people/peopleKeeper.ts'
import { dayText, endOfDay } from '../shop/days.ts'
import { fabricName } from '../shop/lightThings.ts'
import type { ShopService } from '../shop/shopService.ts'
import { actOnScreen } from './actOnScreen.ts'
import { coatMany } from './coatMany.ts'
import { historySays } from './historySays.ts'
import { newInRegister } from './newInRegister.ts'
import { dryingHere, noteDry } from './noteDry.ts'
import { bucketIn, owedOf, screenThings, screenTold } from './screensTold.ts'

const SCREEN = `${PATHS.screens}/{tag}`
const MOST_HISTORY = 60
/** Days beyond the day until which a screen was kept, before it is anybody's. Judged. */
const GRACE_DAYS = 14
const USUAL_RECIPE = 'once on each side'

/** The shop's screens: where each is, whose, what next. */
export function registerRoutes(door: ShopDoor, keeper: PeopleKeeper): readonly Route[] {
  const meIn = async (request: Request): Promise<string | null> =>
    (await keeper.whoIs(door.shop(), request)).person?.id ?? null
  return [
    route({
      method: 'get',
      path: PATHS.register,
      summary:
        'all screens in use, each with what it waits for, and what the register’s blanks take',
      answer: register,
      run: async ({ request }) => registerTold(door.shop(), await meIn(request)),
    }),
    route({
      method: 'post',
      path: PATHS.screens,
      summary: 'gives tags to frames: new screens, clean, of one fabric and frame',
      body: newScreens,
      answer: register,
      status: 201,
      run: async ({ body, request }) => {
        const me = await meIn(request)
        await newInRegister(door.shop(), body, { personId: me })
        return registerTold(door.shop(), me)
      },
    }),
    route({
      method: 'get',
      path: SCREEN,
      summary: 'one screen by its tag: whose it is, what is on it, what next, its history',
      answer: screenPage,
      run: async ({ place, request }) =>
        pageTold(door.shop(), place('tag'), { meId: await meIn(request) }),
    }),
    route({
      method: 'post',
      path: `${SCREEN}/acts`,
      summary:
        'something happened to a screen or was settled; what is sent twice under one key is taken down once',
      body: screenAct,
      answer: screenPage,
      run: async ({ body, place, request }) => {
        const service = door.shop()
        const who = await keeper.whoIs(service, request)
        const meId = who.person?.id ?? null
        const { database } = service.store
        const takes = takenBy(body)
        if (takes !== null) await expectShown(database, who, { act: takes, now: service.now() })
        const screen = await screenWithTag(database, place('tag'))
        await actOnScreen(database, screen, { act: body, personId: meId, now: service.now() })
        service.changed()
        return pageTold(service, place('tag'), { meId })
      },
    }),
    route({
      method: 'post',
      path: PATHS.coatings,
      summary: 'coats many screens at once, each for whoever it will be',
      body: newCoatings,
      answer: coated,
      run: async ({ body, request }) =>
        coatMany(door.shop(), body, { who: await keeper.whoIs(door.shop(), request) }),
    }),
    route({
      method: 'post',
      path: PATHS.feltDry,
      summary: 'somebody felt that screens are dry: they can be exposed, and their time counts',
      body: newDry,
      answer: feltDry,
      run: async ({ body, request }) =>
        noteDry(door.shop(), body, { personId: await meIn(request) }),
    }),
    route({
      method: 'get',
      path: PATHS.reclaim,
      summary: 'reclaim day: who owes what, what is abandoned, haze, the order of stretching',
      query: reclaimQuestion,
      answer: reclaimList,
      run: async ({ query: { on, graceDays = GRACE_DAYS }, request }) => {
        const { store, now } = door.shop()
        const things = await screenThings(store.database)
        const day = on ?? dayText(now())
        const onMs = endOfDay(day).getTime()
        const owed = things.screens.map((screen) => owedOf(screen, things))
        const meId = await meIn(request)
        const told = (all: readonly (typeof owed)[number][]) =>
          // as they will be on that day
          all.map(({ record }) => screenTold(record, things, { now: new Date(onMs), meId }))
        const list = reclaimDay(owed, { onMs, graceDays })
        return {
          kind: 'reclaim day' as const,
          on: day,
          graceDays,
          owed: list.owed.map(({ owner, screens }) => ({ owner, screens: told(screens) })),
          abandoned: told(list.abandoned),
          haze: told(list.haze),
          restretch: told(list.restretch),
        }
      },
    }),
  ]
}

/** What somebody was shown before they do this to a screen; null: it takes nothing. */
function takenBy(act: ScreenAct): MachineAct | null {
  if (act.kind === 'reclaimed') return 'reclaim'
  return act.kind === 'state' && act.to === 'in print' ? 'print' : null
}

async function registerTold(
  { store: { database }, now }: ShopService,
  meId: string | null,
): Promise<Told<Register>> {
  const things = await screenThings(database)
  const shop = await theShop(database)
  const open = things.batches.filter(({ usedUpAt }) => usedUpAt === null)
  return {
    kind: 'register',
    demo: shop.kind === 'demo',
    screens: things.screens.map((screen) => screenTold(screen, things, { now: now(), meId })),
    people: things.people
      .filter(({ leftAt }) => leftAt === null)
      .map(({ id, name, className }) => ({ id, name, className })),
    frames: things.frames.map(({ id, name }) => ({ id, name })),
    fabrics: things.fabrics.map((fabric) => ({ id: fabric.id, name: fabricName(fabric) })),
    buckets: open.map(({ id, name }) => ({ id, name: bucketIn(things, id) ?? name })),
    recipe: shop.usualRecipe ?? USUAL_RECIPE,
    drying: await dryingHere(database),
    nextTag:
      nextTags(
        things.screens.map(({ tag }) => tag),
        { count: 1 },
      )[0] ?? '1',
  }
}

async function pageTold(
  { store: { database }, now }: ShopService,
  tag: string,
  { meId }: Readonly<{ meId: string | null }>,
): Promise<Told<ScreenPage>> {
  const screen = await screenWithTag(database, tag)
  const things = await screenThings(database)
  const events = await screenEvents(database, { screenId: screen.id, limit: MOST_HISTORY })
  const slot = screen.rackSlot === null ? null : slotOf(screen.rackSlot)
  const inRack = (place: number) =>
    things.screens.find(({ rackSlot }) => {
      const other = rackSlot === null ? null : slotOf(rackSlot)
      return other !== null && other.rack === slot?.rack && other.place === place
    })
  const here = things.people.filter(({ leftAt }) => leftAt === null)
  return {
    kind: 'screen',
    demo: (await theShop(database)).kind === 'demo',
    screen: screenTold(screen, things, { now: now(), meId }),
    beside:
      slot === null
        ? []
        : slotsAround(slot).map((place) => {
            const there = inRack(place)
            return { place, tag: there?.tag ?? null, state: there?.state ?? null }
          }),
    history: events.map((event) => ({
      id: event.id,
      on: dayText(event.happenedAt),
      says: historySays(event, things.people),
      by: things.people.find(({ id }) => id === event.personId)?.name ?? null,
    })),
    people: here.map(({ id, name }) => ({ id, name })),
    fabrics: things.fabrics.map((fabric) => ({ id: fabric.id, name: fabricName(fabric) })),
  }
}
