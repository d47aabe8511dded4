import { stat } from 'node:fs/promises'
import { setTimeout as sleep } from 'node:timers/promises'
import { PATHS } from '../api/paths.ts'
import type { Health } from '../api/shop.ts'
import { Failure, isFailure } from '../core/failure.ts'
import { named } from '../store/folder/refused.ts'
import { runningServer } from '../store/folder/runningServer.ts'
import { placesIn } from '../store/folder/shopFolder.ts'
import { openShop } from '../store/openShop.ts'
import { yellowroomApp } from './app.ts'
import { shopDoor, whyShut } from './door.ts'
import { failureFrom } from './http/refusals.ts'
import { shopService } from './shop/shopService.ts'

/** Asks the shop a question of the HTTP contract; what is told is posted to it as JSON. @throws Failure in the shop's own sentence */
export type AskShop = (path: string, told?: object) => Promise<Response>

const TOKEN_OF_ONE = 'this process'

/**
 * The shop in a folder, for as long as `use` runs: through the server that has it open, or opened
 * here where none has. Either way the same routes answer, and the folder is never opened twice.
 *
 * @throws Failure 'missing file' where there is no shop, 'shop in use' where another process has it
 * without answering for it, and what the shop's answers refuse
 */
export async function reachShop<Result>(
  folder: string,
  {
    databaseUrl,
    patienceMs = OTHERS_PATIENCE_MS,
    use,
  }: Readonly<{
    databaseUrl?: string | undefined
    /** How long another process may have the folder without answering for it. */
    patienceMs?: number
    use: (ask: AskShop) => Promise<Result>
  }>,
): Promise<Result> {
  for (const endMs = Date.now() + patienceMs; ; await sleep(LOOK_AGAIN_MS)) {
    const server = await serverOf(folder)
    if (server !== null) return use(server)
    await refuseNoShop(folder)
    const opened = await openedHere(folder, { databaseUrl }).catch((cause: unknown) => {
      if (isFailure(cause, 'shop in use') && Date.now() < endMs) return null
      throw cause
    })
    if (opened === null) continue
    try {
      return await use(opened.ask)
    } finally {
      await opened.close()
    }
  }
}

/** Another command soon goes; a server that has just started soon says where it is. */
const OTHERS_PATIENCE_MS = 10_000

async function openedHere(
  folder: string,
  { databaseUrl }: Readonly<{ databaseUrl: string | undefined }>,
): Promise<Readonly<{ ask: AskShop; close: () => Promise<void> }>> {
  const options = databaseUrl === undefined ? {} : { databaseUrl }
  let trouble: unknown = null
  const door = shopDoor(async () => {
    try {
      return shopService(await openShop(folder, options), { onTrouble: () => undefined })
    } catch (cause) {
      trouble = cause
      throw cause
    }
  })
  await door.settled
  if (isFailure(trouble)) throw trouble
  if (trouble !== null) throw new Failure('world failed', whyShut(trouble), { cause: trouble })
  const app = yellowroomApp(door, { token: TOKEN_OF_ONE })
  const headers = { authorization: `Bearer ${TOKEN_OF_ONE}` }
  return {
    ask: async (path, told) => answered(await app.request(path, asSent(headers, told))),
    close: door.close,
  }
}

/** How long a server may take to open its shop, and how often it is looked at meanwhile. */
const OPENING_PATIENCE_MS = 120_000
const LOOK_AGAIN_MS = 100

/**
 * Once its shop is open, or could not be opened. Null where none says it is there; a note that a killed
 * server left behind leads nowhere.
 */
async function serverOf(folder: string): Promise<AskShop | null> {
  const server = await runningServer(folder)
  if (server === null) return null
  const headers = { authorization: `Bearer ${server.token}`, 'accept-encoding': 'identity' }
  const ask = (path: string, told?: object): Promise<Response> =>
    fetch(new URL(path, server.url), asSent(headers, told))
  try {
    for (let waitedMs = 0; ; waitedMs += LOOK_AGAIN_MS) {
      const answer = await ask(PATHS.health)
      if (answer.status !== 200) return null // another program has the port now
      const { status } = (await answer.json()) as Partial<Health>
      if (status !== 'opening' || waitedMs >= OPENING_PATIENCE_MS) break
      await sleep(LOOK_AGAIN_MS)
    }
  } catch {
    return null
  }
  return async (path, told) => answered(await ask(path, told))
}

function asSent(headers: Readonly<Record<string, string>>, told: object | undefined): RequestInit {
  if (told === undefined) return { headers }
  return {
    method: 'POST',
    headers: { ...headers, 'content-type': 'application/json' },
    body: JSON.stringify(told),
  }
}

async function answered(answer: Response): Promise<Response> {
  if (answer.ok) return answer
  const { error } = (await answer.json()) as { error: Parameters<typeof failureFrom>[0]['error'] }
  throw failureFrom({ error })
}

async function refuseNoShop(folder: string): Promise<void> {
  try {
    await stat(placesIn(folder).mark)
  } catch (cause) {
    const message = `There is no shop in ${named(folder)}: name a shop's data folder.`
    throw new Failure('missing file', message, { field: 'shop', cause })
  }
}
