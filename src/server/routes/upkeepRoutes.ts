import type { Hono } from 'hono'
import type { z } from 'zod'
import { PATHS } from '../../api/paths.ts'
import {
  type ShopSetup,
  shopSetup as setupAnswer,
  setupQuestion,
  shopCheck,
} from '../../api/upkeep.ts'
import { Failure } from '../../core/failure.ts'
import { backupTo } from '../../store/backup/backupShop.ts'
import { checkShop } from '../../store/check.ts'
import { lightFor } from '../../workflow/light.ts'
import { setupRecord, shopSetup } from '../../workflow/shopSetup.ts'
import type { ShopDoor } from '../door.ts'
import { type Route, route, type Told } from '../http/route.ts'
import { streamed } from '../http/streamed.ts'
import { dayOf } from '../shop/days.ts'
import { exposureAsked, mediumAsked } from '../shop/exposureAsked.ts'
import type { ShopService } from '../shop/shopService.ts'

/** What commands ask of a shop: its physics, its health. */
export function upkeepRoutes(door: ShopDoor): readonly Route[] {
  return [
    route({
      method: 'get',
      path: PATHS.setup,
      summary: 'the physics of one exposure as this shop has found it, in the form of setup.json',
      query: setupQuestion,
      answer: setupAnswer,
      run: ({ query }) => setupOf(door.shop(), query),
    }),
    route({
      method: 'get',
      path: PATHS.check,
      summary: 'reads all the shop’s data through: rows, references, files',
      answer: shopCheck,
      run: async () => {
        const { store, now } = door.shop()
        return checkShop(store, { at: now() })
      },
    }),
  ]
}

async function setupOf(
  service: ShopService,
  query: z.infer<typeof setupQuestion>,
): Promise<Told<ShopSetup>> {
  const records = await service.records()
  const exposure = exposureAsked(records, query, { filmBaseId: null })
  const known = { belief: records.belief, shop: records.light, day: dayOf(service.now()) }
  const setup = setupRecord(shopSetup(exposure, known))
  const found = { kind: 'setup', countsIn: exposure.unit.countsIn, setup } as const
  if (query.medium === undefined) return { ...found, medium: null }
  const { id, name } = mediumAsked(records, query.medium)
  const light = lightFor({ ...exposure, subject: { kind: 'medium', id, name } }, known)
  const { dose, chance, word, reasons } = light
  return { ...found, medium: { name, dose, chanceGood: chance.good, word, reasons } }
}

/**
 * The whole shop as one file, while it is written; for those who know the token, as a page on the
 * network must not walk off with it.
 */
export function addBackup(app: Hono, door: ShopDoor): void {
  app.get(PATHS.backup, (context) => {
    if (context.req.header('authorization') === undefined) {
      const message = 'A backup is made by the command: backup --out FILE, on the shop’s computer.'
      throw new Failure('not found', message)
    }
    const { store, now } = door.shop()
    return streamed(context, 'application/x-tar', (sink) => backupTo(store, sink, { at: now() }))
  })
}
