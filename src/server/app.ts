import { Hono } from 'hono'
import { compress } from 'hono/compress'
import { PATHS } from '../api/paths.ts'
import { Failure } from '../core/failure.ts'
import type { ShopDoor } from './door.ts'
import { type GuardOptions, guard, headers } from './http/guard.ts'
import { openapiDocument } from './http/openapi.ts'
import { PAGES_FOLDER, pagesFrom } from './http/pages.ts'
import { refused } from './http/refusals.ts'
import { addRoutes } from './http/route.ts'
import { addEvidence } from './people/evidenceFile.ts'
import { peopleKeeper } from './people/peopleKeeper.ts'
import { peopleRoutes } from './people/peopleRoutes.ts'
import { roleGuard } from './people/roleGuard.ts'
import { addScreenLabels } from './register/labelsFile.ts'
import { registerRoutes } from './register/registerRoutes.ts'
import { addArtworkFiles, artworkRoutes } from './routes/artworkRoutes.ts'
import { addRunSheet } from './routes/benchPapers.ts'
import { benchRoutes } from './routes/benchRoutes.ts'
import { clockRoutes } from './routes/clockRoutes.ts'
import { dayRoutes } from './routes/dayRoutes.ts'
import { designRoutes } from './routes/designRoutes.ts'
import { diagnosisRoutes } from './routes/diagnosisRoutes.ts'
import { addExports } from './routes/exportRoutes.ts'
import { filmQueueRoutes } from './routes/filmQueueRoutes.ts'
import { filmRoutes } from './routes/filmRoutes.ts'
import { addHazardLabels } from './routes/hazardLabels.ts'
import { lampRoutes } from './routes/lampRoutes.ts'
import { lightRoutes } from './routes/lightRoutes.ts'
import { notesRoutes } from './routes/notesRoutes.ts'
import { addPapers, gradeRoutes } from './routes/paperRoutes.ts'
import { addPhotoFiles, photoRoutes } from './routes/photoRoutes.ts'
import { addPlacePapers } from './routes/placePapers.ts'
import { placeRoutes } from './routes/placeRoutes.ts'
import { addFilmQueuePaper, addPlanPapers } from './routes/planPapers.ts'
import { planRoutes } from './routes/planRoutes.ts'
import { addRoomPapers } from './routes/roomPapers.ts'
import { screenChoiceRoutes } from './routes/screenChoiceRoutes.ts'
import { shopRoutes } from './routes/shopRoutes.ts'
import { addSignPictures } from './routes/signPictures.ts'
import { testsRoutes } from './routes/testsRoutes.ts'
import { thingsRoutes } from './routes/thingsRoutes.ts'
import { addJobTicket } from './routes/ticketPapers.ts'
import { ticketRoutes } from './routes/ticketRoutes.ts'
import { addTiles } from './routes/tiles.ts'
import { addBackup, upkeepRoutes } from './routes/upkeepRoutes.ts'

/** Answers shorter than this are quicker sent than pressed. */
const PRESSED_BYTES = 8192

export type AppOptions = Omit<GuardOptions, 'onlyHere'> &
  Partial<Pick<GuardOptions, 'onlyHere'>> &
  Readonly<{ pagesFolder?: string }>

/** Everything that can be asked of us. Tests call `app.request`; no port is needed. */
export function yellowroomApp(
  door: ShopDoor,
  { onlyHere = true, pagesFolder = PAGES_FOLDER, ...known }: AppOptions,
): Hono {
  const app = new Hono()
  const keeper = peopleKeeper()
  const routes = [
    ...shopRoutes(door),
    ...lightRoutes(door),
    ...filmRoutes(door),
    ...photoRoutes(door),
    ...artworkRoutes(door),
    ...testsRoutes(door, keeper),
    ...designRoutes(door),
    ...lampRoutes(door),
    ...gradeRoutes(door),
    ...notesRoutes(door),
    ...ticketRoutes(door, keeper),
    ...planRoutes(door),
    ...placeRoutes(door),
    ...screenChoiceRoutes(door),
    ...filmQueueRoutes(door),
    ...benchRoutes(door, keeper),
    ...clockRoutes(door, keeper),
    ...registerRoutes(door, keeper),
    ...peopleRoutes(door, keeper),
    ...thingsRoutes(door),
    ...dayRoutes(door),
    ...diagnosisRoutes(door),
    ...upkeepRoutes(door),
  ]
  let document: string | null = null // drawn up when it is asked for
  const pages = pagesFrom(pagesFolder)
  app.use(headers())
  app.use(guard({ ...known, onlyHere }))
  app.use('/api/*', async ({ req }, next) => {
    if (req.path !== PATHS.health) await door.soon()
    await next()
  })
  app.use('/api/*', roleGuard(door, keeper))
  app.use('/api/*', compress({ threshold: PRESSED_BYTES }))
  addRoutes(app, routes)
  addTiles(app, door)
  addPhotoFiles(app, door)
  addArtworkFiles(app, door)
  addPapers(app, door)
  addJobTicket(app, door)
  addRunSheet(app, door)
  addHazardLabels(app, door)
  addRoomPapers(app, door)
  addSignPictures(app, door)
  addPlanPapers(app, door)
  addFilmQueuePaper(app, door)
  addPlacePapers(app, door)
  addScreenLabels(app, door)
  addEvidence(app, door)
  addBackup(app, door)
  addExports(app, door)
  app.get(PATHS.openapi, (context) =>
    context.body((document ??= JSON.stringify(openapiDocument(routes))), 200, {
      'content-type': 'application/json',
    }),
  )
  app.all('/api/*', ({ req }) => {
    const message = `There is nothing to ${req.method} at ${req.path}: ${PATHS.openapi} lists what there is.`
    throw new Failure('not found', message)
  })
  app.get('*', pages.answer)
  app.onError((thrown, context) => refused(context, thrown))
  app.notFound((context) => context.text('There is nothing of this kind here.', 404))
  return app
}
