import { PATHS } from '../../src/api/paths.ts'
import { yellowroomApp } from '../../src/server/app.ts'
import { shopDoor } from '../../src/server/door.ts'
import { type ServiceOptions, shopService } from '../../src/server/shop/shopService.ts'
import { openShop } from '../../src/store/openShop.ts'
import { emptyShopIn } from '../store/scratch.ts'
import { type Asks, newFolder, remove } from './shopRoom.ts'

/** An open shop in this process, asked without a port. */
export type Room = Readonly<{
  ask: Asks
  folder: string
  troubles: readonly unknown[]
  close: () => Promise<void>
}>

/** An empty shop in a folder of its own. */
export async function room(options: Omit<ServiceOptions, 'onTrouble'> = {}): Promise<Room> {
  const folder = await emptyShopIn(await newFolder())
  const troubles: unknown[] = []
  const onTrouble = (cause: unknown): void => void troubles.push(cause)
  const door = shopDoor(async () => shopService(await openShop(folder), { onTrouble, ...options }))
  await door.settled
  const app = yellowroomApp(door, { token: null })
  const ask: Asks = async (path, init) => app.request(path, init)
  const health = (await (await ask(PATHS.health)).json()) as { status: string; message: string }
  if (health.status !== 'ready') throw new Error(health.message)
  return {
    ask,
    folder,
    troubles,
    close: async () => {
      await door.close()
      await remove(folder)
    },
  }
}
