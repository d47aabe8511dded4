import { PATHS } from '../../src/api/paths.ts'
import { density, lu, mm, um } from '../../src/core/units/quantity.ts'
import { yellowroomApp } from '../../src/server/app.ts'
import { shopDoor } from '../../src/server/door.ts'
import { shopService } from '../../src/server/shop/shopService.ts'
import { storeBlob } from '../../src/store/blobs/blobStore.ts'
import { addSurvey } from '../../src/store/evenness.ts'
import { addFilm, filmIsReady } from '../../src/store/films.ts'
import { addFrame } from '../../src/store/frames.ts'
import { openShop } from '../../src/store/openShop.ts'
import { addScreen, screens } from '../../src/store/screens.ts'
import { units } from '../../src/store/units.ts'
import { emptyShopIn } from '../store/scratch.ts'
import { newFolder, remove } from './shopRoom.ts'

export type PlaceShop = Readonly<{
  app: ReturnType<typeof yellowroomApp>
  /** Of screens 14, 15 and 16, the unit, and films: sheet, half, poster, and one that is not read. */
  ids: Readonly<Record<string, string>>
  close: () => Promise<void>
}>

const AT = new Date('2026-11-28T10:00:00Z')

/** A shop with one glass, frames of one size, and films of known sizes whose marks nobody knows. */
export async function placeShop(): Promise<PlaceShop> {
  const ids: Record<string, string> = {}
  const folder = await emptyShopIn(await newFolder())
  const store = await openShop(folder)
  const door = shopDoor(async () => shopService(store, { onTrouble: () => {}, now: () => AT }))
  await door.settled
  const app = yellowroomApp(door, { token: null })
  const made = await app.request(PATHS.ownShop, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({ shopName: 'Shed press', fabric: '90-48' }),
  })
  if (made.status !== 201) throw new Error(await made.text())
  const { database } = store
  const [first] = await screens(database)
  const size = { insideWidthMm: mm(500), insideHeightMm: mm(700) }
  const outside = { outsideWidthMm: mm(580), outsideHeightMm: mm(780) }
  const frame = await addFrame(database, { name: 'demo', ...size, ...outside }, { at: AT })
  const fabricId = first?.fabricId ?? ''
  for (const tag of ['14', '15', '16']) {
    const screen = { tag, frameId: frame.id, fabricId, state: 'clean' } as const
    ids[tag] = (await addScreen(database, screen, { at: AT })).id
  }
  const [lit] = await units(database)
  ids['unit'] = lit?.unit.id ?? ''
  const survey = {
    unitId: ids['unit'],
    takenAt: AT,
    glassWidthMm: mm(1200),
    glassHeightMm: mm(900),
    doseLu: lu(40),
    firstDensity: density(0.05),
    increment: density(0.15),
    steps: 21,
  }
  // One step less at the right: 10^-0.15 of the light, as a tilted plane.
  const wedges = [
    { xMm: mm(0), yMm: mm(0), lastSolidStep: 8 },
    { xMm: mm(0), yMm: mm(900), lastSolidStep: 8 },
    { xMm: mm(1200), yMm: mm(450), lastSolidStep: 7 },
  ].map((wedge) => ({ ...wedge, firstClearStep: null }))
  await addSurvey(database, { survey, wedges }, { at: AT })
  const parts = async function* () {
    yield new TextEncoder().encode('a demo film')
  }
  const blob = await storeBlob(
    store.blobs,
    parts(),
    { mediaType: 'application/x.demo', limitBytes: 100 },
    { at: AT },
  )
  for (const [name, widthMm, heightMm] of [
    ['sheet', 210, 297],
    ['half', 210, 148],
    ['poster', 841, 1189],
  ] as const) {
    const film = { kind: 'read', name, originalBlob: blob.sha256 } as const
    const { id } = await addFilm(database, film, { at: AT })
    await filmIsReady(
      database,
      id,
      { widthMm: mm(widthMm), heightMm: mm(heightMm), pixelUm: um(50) },
      { at: AT },
    )
    ids[name] = id
  }
  const waits = { kind: 'read', name: 'unread', originalBlob: blob.sha256 } as const
  ids['unread'] = (await addFilm(database, waits, { at: AT })).id
  return {
    app,
    ids,
    close: async () => {
      await door.close()
      await remove(folder)
    },
  }
}
