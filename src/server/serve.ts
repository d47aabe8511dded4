import { randomBytes } from 'node:crypto'
import type { Server } from 'node:http'
import type { BegunShop } from '../store/beginShop.ts'
import { announceServer } from '../store/folder/runningServer.ts'
import { openBegun } from '../store/openShop.ts'
import { type ShopDoor, shopDoor, whyShut } from './door.ts'
import { type Door, notListening } from './notListening.ts'
import type { ServiceOptions } from './shop/shopService.ts'

/** The running server; `stopped` ends when all of it has, the shop closed. */
export type Running = Readonly<{ url: string; stop: () => void; stopped: Promise<void> }>

export type ServeOptions = Readonly<{
  door: Door
  /** By which browsers reach it, beside its address and the names of its own net. */
  names?: readonly string[]
  /** The shop, whose database is being opened. */
  begun: BegunShop
  pagesFolder?: string
  limits?: ServiceOptions['limits']
  /** Hears in a sentence what went wrong beside the answers. */
  onTrouble: (sentence: string) => void
}>

/** What is still being answered when the server is told to stop gets this long. */
const GRACE_MS = 1000
/** A sender that stops sending is let go; a whole upload may take long on a slow network. */
const SILENT_SOCKET_MS = 120_000
const WHOLE_REQUEST_MS = 3600_000
const HEADERS_MS = 20_000
const LOCAL = new Set(['127.0.0.1', '::1', 'localhost'])

/**
 * Opens the shop and loads and listens beside it; answers until `stop`. The shop takes longest: it
 * is begun first, and until it is open questions are put off.
 *
 * @throws Failure 'shop in use' when another Yellowroom has the folder, 'cannot write' or 'wrong
 * input' for a folder that cannot be one; 'world failed' when the port is taken or may not be had,
 * 'wrong input' for a host that is none of this computer's
 */
export async function serveYellowroom(options: ServeOptions): Promise<Running> {
  const { begun, onTrouble } = options
  const token = randomBytes(32).toString('base64url')
  const troubled = (cause: unknown): void => onTrouble(whyShut(cause))
  const shop = shopDoor(async () => {
    const store = await openBegun(begun, { onTrouble: troubled })
    const { limits } = options
    const { shopService } = await import('./shop/shopService.ts')
    return shopService(store, { onTrouble: troubled, ...(limits === undefined ? {} : { limits }) })
  })
  const { server, url } = await listen(shop, { ...options, token }).catch(async (cause) => {
    await shop.close()
    throw cause
  })
  // commands look for the server of a folder that is one process's
  if (begun.lock !== null) void announceServer(begun.folder, { url, token }).catch(troubled)
  void shop.settled.then(() => {
    const { message } = shop.health()
    if (message !== null) onTrouble(message)
  })
  let stopping: Promise<void> | null = null
  let ended: () => void = () => undefined
  const stopped = new Promise<void>((resolve) => {
    ended = resolve
  })
  const stop = (): void => {
    stopping ??= Promise.all([closed(server), shop.close().catch(troubled)]).then(ended)
  }
  server.once('close', stop)
  return { url, stop, stopped }
}

async function listen(
  shop: ShopDoor,
  { door, names = [], token, pagesFolder }: ServeOptions & Readonly<{ token: string }>,
): Promise<Readonly<{ server: Server; url: string }>> {
  const [{ serve }, { yellowroomApp }] = await Promise.all([
    import('@hono/node-server'),
    import('./app.ts'),
  ])
  const pages = pagesFolder === undefined ? {} : { pagesFolder }
  const { fetch } = yellowroomApp(shop, { token, names, onlyHere: LOCAL.has(door.host), ...pages })
  return new Promise((resolve, reject) => {
    const server = serve({ fetch, port: door.port, hostname: door.host }, ({ address, port }) => {
      const host = address.includes(':') ? `[${address}]` : address
      resolve({ server, url: `http://${host}:${port}` })
    }) as Server
    server.headersTimeout = HEADERS_MS
    server.requestTimeout = WHOLE_REQUEST_MS
    server.setTimeout(SILENT_SOCKET_MS)
    server.once('error', (cause: Error) => reject(notListening(door, cause)))
  })
}

function closed(server: Server): Promise<void> {
  return new Promise((resolve) => {
    server.close(() => resolve())
    server.closeIdleConnections()
    setTimeout(() => server.closeAllConnections(), GRACE_MS).unref()
  })
}
