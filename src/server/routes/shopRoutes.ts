import { z } from 'zod'
import { firstDose } from '../../api/light.ts'
import { PATHS } from '../../api/paths.ts'
import { choices, firstFacts, health, type Shop, shop } from '../../api/shop.ts'
import { Failure } from '../../core/failure.ts'
import type { Shop as ShopRecord } from '../../store/shop.ts'
import { shopOrNull } from '../../store/shop.ts'
import { lightFirstDose } from '../../workflow/lightFirstDose.ts'
import type { ShopDoor } from '../door.ts'
import { type Route, route } from '../http/route.ts'
import { shopChoices } from '../shop/choices.ts'
import { dayOf } from '../shop/days.ts'
import { foundDemoShop } from '../shop/demoShop.ts'
import { toldShop } from '../shop/facts.ts'
import { foundOwnShop } from '../shop/ownShop.ts'
import type { ShopService } from '../shop/shopService.ts'

/** The shop itself: whether it is there, how it begins, what it has. */
export function shopRoutes(door: ShopDoor): readonly Route[] {
  return [
    route({
      method: 'get',
      path: PATHS.health,
      summary: 'whether the shop is open: opening, ready, or failed with the reason',
      answer: health,
      run: () => Promise.resolve(door.health()),
    }),
    route({
      method: 'get',
      path: PATHS.shop,
      summary: 'whose shop this is; none while the data folder is empty',
      answer: shop,
      run: () => {
        const service = door.shop()
        return service.kept('shop', async () => told(await shopOrNull(service.store.database)))
      },
    }),
    route({
      method: 'post',
      path: PATHS.demoShop,
      summary:
        'look round the demo shop: fills the empty folder with it; its films are drawn at once',
      answer: shop,
      status: 201,
      run: async () => {
        const service = door.shop()
        const there = await shopOrNull(service.store.database)
        if (there?.kind === 'demo') return told(there)
        refuseOther(there, 'demo')
        await foundDemo(service)
        return told(await shopOrNull(service.store.database))
      },
    }),
    route({
      method: 'post',
      path: PATHS.ownShop,
      summary: 'set up one’s own shop in the empty folder from the paragraph with five blanks',
      body: firstFacts,
      answer: shop,
      status: 201,
      run: async ({ body }) => {
        const service = door.shop()
        refuseOther(await shopOrNull(service.store.database), 'own')
        await foundOwnShop(service.store.database, body, { at: service.now() })
        service.changed()
        return told(await shopOrNull(service.store.database))
      },
    }),
    route({
      method: 'post',
      path: PATHS.firstDose,
      summary:
        'the first useful dose from the same paragraph, and what a test strip would make of it',
      body: firstFacts,
      answer: firstDose,
      run: ({ body }) => {
        const service = door.shop()
        return service.kept(`first dose ${JSON.stringify(body)}`, async () => {
          const day = dayOf(service.now())
          const { exposure, ...known } = toldShop(body, { day })
          const { countsIn } = exposure.unit
          return { kind: 'first dose', countsIn, ...lightFirstDose(exposure, { ...known, day }) }
        })
      },
    }),
    route({
      method: 'get',
      path: PATHS.choices,
      summary: 'what fills the blanks of the Light page',
      query: z.object({}).strict(),
      answer: choices,
      run: () => {
        const service = door.shop()
        return service.kept('choices', () => shopChoices(service))
      },
    }),
  ]
}

async function foundDemo(service: ShopService): Promise<void> {
  const { store, jobs, now } = service
  await foundDemoShop(store.blobs, { at: now() })
  service.changed()
  await jobs.mend(service.usualSetup)
  jobs.wake()
}

function told(record: ShopRecord | null): Shop {
  if (record === null) return { kind: 'shop', state: 'none' }
  const { kind, name, units } = record
  return { kind: 'shop', state: kind, name, units: units === 'inch' ? 'imperial' : 'metric' }
}

/** A folder holds one shop for good: nothing of the demo ever enters somebody's own. */
function refuseOther(there: ShopRecord | null, wanted: ShopRecord['kind']): void {
  if (there === null) return
  const message =
    wanted === 'own' && there.kind === 'own'
      ? `This folder holds a shop already, ${there.name}: change it on the page Shop.`
      : `This folder holds ${there.kind === 'demo' ? 'the demo shop' : `a shop, ${there.name}`}, and the ${wanted === 'demo' ? 'demo' : 'new'} shop needs a folder of its own: stop Yellowroom, name an empty one in YELLOWROOM_DATA, and start again.`
  throw new Failure('conflict', message)
}
