import { Hono } from 'hono'
import { secureHeaders } from 'hono/secure-headers'
import { PICTURE, pngSides, servedFile } from './files.ts'
import { firstPage, missingPage, type Picture } from './page.ts'
import type { ShownCommand } from './shown.ts'

const NOTHING = ["'none'"]
const OURS = ["'self'"]

/**
 * Everything a browser can ask of us. Tests call `app.request`; no port is needed.
 *
 * @param commands what the first page shows
 */
export function yellowroomApp(commands: readonly ShownCommand[]): Hono {
  const app = new Hono()
  app.use(
    secureHeaders({
      contentSecurityPolicy: {
        defaultSrc: NOTHING,
        styleSrc: OURS,
        imgSrc: OURS,
        fontSrc: OURS,
        baseUri: NOTHING,
        formAction: NOTHING,
        frameAncestors: NOTHING,
      },
      strictTransportSecurity: false, // a workshop's own plain http
    }),
  )
  app.get('/', async (context) => {
    context.header('cache-control', 'no-cache')
    return context.html(firstPage(commands, { picture: await picture() }))
  })
  app.get('/api/health', (context) => {
    context.header('cache-control', 'no-store')
    return context.json({ kind: 'health', status: 'ready' })
  })
  app.get('*', async (context) => {
    const file = await servedFile(context.req.path)
    if (file === null) return context.notFound()
    const { bytes, type } = file
    return context.body(bytes, 200, { 'content-type': type, 'cache-control': 'max-age=3600' })
  })
  app.notFound((context) => context.html(missingPage(), 404))
  return app
}

async function picture(): Promise<Picture> {
  const file = await servedFile(PICTURE)
  return file === null ? null : pngSides(file.bytes)
}
