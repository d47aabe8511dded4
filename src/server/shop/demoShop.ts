import { createHash } from 'node:crypto'
import { weaveNamed } from '../../core/fabric/geometry.ts'
import { FILM_BASES } from '../../core/film/bases.ts'
import { mm } from '../../core/units/quantity.ts'
import { DEMO_FILMS, type DemoFilmName } from '../../demo/films.ts'
import { LAMP_FITTED_DAYS_AGO } from '../../demo/historyLamp.ts'
import { DEMO_SHOP } from '../../demo/shop.ts'
import { addBase, type Base } from '../../store/bases.ts'
import { type BlobPlace, storeBlob } from '../../store/blobs/blobStore.ts'
import { coatScreen } from '../../store/coatings.ts'
import { type Database, inTransaction } from '../../store/database/database.ts'
import { addBatch, addEmulsion } from '../../store/emulsions.ts'
import { addFabric } from '../../store/fabrics.ts'
import { addFilm, type Film } from '../../store/films.ts'
import { addFrame } from '../../store/frames.ts'
import type { Medium } from '../../store/media.ts'
import { addPerson } from '../../store/people.ts'
import { addScreen, changeScreen } from '../../store/screens.ts'
import { foundShop } from '../../store/shop.ts'
import { addUnit, fitLamp } from '../../store/units.ts'
import { addDemoArtwork, keepDemoArtwork } from './demoArtwork.ts'
import { addDemoPast, type DemoBuckets, daysBefore, RECIPE } from './demoPast.ts'
import { addDemoQueue } from './demoQueue.ts'
import { addDemoRegister } from './demoRegister.ts'
import { addDemoRoom } from './demoRoom.ts'
import { addDemoTicket } from './demoTicket.ts'
import { addMediumNamed, usualEmulsion } from './ownShop.ts'

type At = Readonly<{ at: Date }>
type Ids = ReadonlyMap<string, string>

/** The bucket before the open one was mixed before the first of its readings. */
const OLD_BUCKET_DAYS_AGO = 140
/** A demo film's file is the word by which its code is known. */
const RECIPE_TYPE = 'application/x.yellowroom-demo-film'
const RECIPE_BYTES = 1000

/**
 * Founds the demo shop: invented people and things, and films that wait to be drawn. All of it or
 * nothing.
 *
 * @throws Failure 'conflict' when there is a shop already
 */
export async function foundDemoShop(place: BlobPlace, { at }: At): Promise<void> {
  const recipes = new Map<DemoFilmName, string>()
  for (const { film } of DEMO_SHOP.films) {
    const wanted = { mediaType: RECIPE_TYPE, limitBytes: RECIPE_BYTES }
    const { sha256 } = await storeBlob(place, parts(recipeOf(film)), wanted, { at })
    recipes.set(film, sha256)
  }
  const drawing = await keepDemoArtwork(place, { at })
  await inTransaction(place.database, async (inner) => {
    const unit = await addDemoUnit(inner, { at })
    const fabrics = await addDemoFabrics(inner, { at })
    const batches = await addDemoEmulsions(inner, { at })
    const people = await addDemoPeople(inner, { at })
    const bases = await addDemoBases(inner, { at })
    const media = new Map<string, Medium>()
    for (const name of [...DEMO_SHOP.media.hand, ...DEMO_SHOP.media.printed]) {
      media.set(name, await addMediumNamed(inner, name, { at }))
    }
    const screens = await addDemoScreens(inner, { fabrics, batches: batches.byEmulsion, at })
    const layers = await addDemoTicket(inner, { people, screens, at })
    await addDemoQueue(inner, { people, at })
    const films = new Map<DemoFilmName, string>()
    for (const [index, { film, base, owner }] of [...DEMO_SHOP.films].reverse().entries()) {
      const { title, medium } = DEMO_FILMS[film]
      const originalBlob = recipes.get(film)
      if (originalBlob === undefined) throw new RangeError(`film: expected a recipe for ${film}`)
      const of = {
        kind: 'made',
        name: title,
        originalBlob,
        layerId: layers.get(film) ?? null,
        ownerId: people.get(owner) ?? null,
        baseId: bases.get(base)?.id ?? null,
        mediumId: media.get(medium)?.id ?? null,
      } as const
      // the newest stands first
      films.set(film, (await addFilm(inner, of, { at: later(at, index) })).id)
    }
    const fabricId = fabrics.get('90-48 yellow') ?? null
    await addDemoArtwork(inner, { originalBlob: drawing, fabricId, at })
    const usual = batches.usual
    await addDemoPast(inner, { ...unit, fabrics, usual, people, bases, media, screens, at })
    const usualFabric = DEMO_SHOP.screens.find(({ tag }) => tag === DEMO_SHOP.usualScreen)?.fabric
    await addDemoRoom(inner, { at })
    await addDemoRegister(inner, { screens, people, unitId: unit.unitId, films, at })
    await foundShop(
      inner,
      {
        name: DEMO_SHOP.name,
        kind: 'demo',
        units: 'mm',
        usualUnitId: unit.unitId,
        usualFabricId: fabrics.get(usualFabric ?? '') ?? null,
        usualEmulsionId: batches.usual.emulsionId,
        usualRecipe: RECIPE,
        usualBaseId: bases.get(DEMO_SHOP.usualBase)?.id ?? null,
        usualMediumId: media.get(DEMO_FILMS.softPencil.medium)?.id ?? null,
      },
      { at },
    )
  })
}

/** Which of the demo films a film is; null for one that came in as a file. */
export function demoFilmOf({ originalBlob }: Pick<Film, 'originalBlob'>): DemoFilmName | null {
  const sha256 = (name: DemoFilmName): string =>
    createHash('sha256').update(recipeOf(name)).digest('hex')
  const known = Object.values(DEMO_FILMS).find(({ name }) => sha256(name) === originalBlob)
  return known?.name ?? null
}

function recipeOf(name: DemoFilmName): Uint8Array {
  return new TextEncoder().encode(`Yellowroom demo film: ${name}\n`)
}

async function addDemoUnit(
  database: Database,
  { at }: At,
): Promise<Readonly<{ unitId: string; lampId: string }>> {
  const { name, countsPerLu, lamp, lampHours } = DEMO_SHOP.unit
  const unit = await addUnit(
    database,
    { name, counts: 'light units', luPerCount: 1 / countsPerLu },
    { at },
  )
  const { kind, distanceMm, sourceRadiusMm } = lamp
  const fitted = { kind, distanceMm: mm(distanceMm), sourceRadiusMm: mm(sourceRadiusMm) }
  const inUnit = { unitId: unit.id, ...fitted, litHours: lampHours }
  const lit = await fitLamp(database, inUnit, { at: daysBefore(at, LAMP_FITTED_DAYS_AGO) })
  return { unitId: unit.id, lampId: lit.id }
}

async function addDemoFabrics(database: Database, { at }: At): Promise<Ids> {
  const ids = new Map<string, string>()
  for (const { name, colour } of DEMO_SHOP.fabrics) {
    const [weave = name] = name.split(' ')
    const dyed = colour === 'dyed'
    const cloth = { name: weave, ...weaveNamed(weave), dyed, colour: dyed ? 'yellow' : 'white' }
    ids.set(name, (await addFabric(database, cloth, { at })).id)
  }
  return ids
}

async function addDemoEmulsions(
  database: Database,
  { at }: At,
): Promise<Readonly<{ byEmulsion: Ids; usual: DemoBuckets }>> {
  const byEmulsion = new Map<string, string>()
  let usual: DemoBuckets | null = null
  for (const { name, kind, mixedDaysAgo, goodForDays } of DEMO_SHOP.emulsions) {
    const numbers = usualEmulsion(kind === 'two-part' ? 'diazo' : 'ready-mixed')
    const emulsion = await addEmulsion(database, { name, ...numbers }, { at })
    const mixedAt = daysBefore(at, mixedDaysAgo)
    const expiresAt = daysBefore(mixedAt, -goodForDays)
    const bucket = { emulsionId: emulsion.id, name: 'the open bucket', mixedAt, expiresAt }
    const open = await addBatch(database, bucket, { at })
    byEmulsion.set(name, open.id)
    if (usual !== null) continue
    const before = {
      emulsionId: emulsion.id,
      name: 'the bucket before',
      mixedAt: daysBefore(at, OLD_BUCKET_DAYS_AGO),
      usedUpAt: mixedAt,
    }
    const old = await addBatch(database, before, { at })
    usual = { emulsionId: emulsion.id, old: old.id, open: open.id }
  }
  if (usual === null) throw new RangeError('emulsions: expected at least 1, got 0')
  return { byEmulsion, usual }
}

async function addDemoPeople(database: Database, { at }: At): Promise<Ids> {
  const ids = new Map<string, string>()
  for (const [index, { name, role }] of DEMO_SHOP.people.entries()) {
    ids.set(name, (await addPerson(database, { name, role }, { at: later(at, index) })).id)
  }
  return ids
}

async function addDemoBases(database: Database, { at }: At): Promise<ReadonlyMap<string, Base>> {
  const byName = new Map<string, Base>()
  for (const base of DEMO_SHOP.bases) {
    const { name, thicknessUm } = base
    const known = FILM_BASES.find((each) => each.name === name)
    if (known === undefined) throw new RangeError(`base: expected one of the table, got ${name}`)
    const { baseDensity, status } = known
    const record = { name, baseDensity, thicknessUm: thicknessUm as Base['thicknessUm'], status }
    byName.set(name, await addBase(database, record, { at }))
  }
  return byName
}

async function addDemoScreens(
  database: Database,
  { fabrics, batches, at }: At & Readonly<{ fabrics: Ids; batches: Ids }>,
): Promise<Ids> {
  const frames = new Map<string, string>()
  const byTag = new Map<string, string>()
  for (const [index, screen] of DEMO_SHOP.screens.entries()) {
    const { width, height } = screen.insideMm
    const name = `${width} x ${height}`
    const inside = { insideWidthMm: mm(width), insideHeightMm: mm(height) }
    const frameId = frames.get(name) ?? (await addFrame(database, { name, ...inside }, { at })).id
    frames.set(name, frameId)
    const { tag, state, coating } = screen
    const fabricId = fabrics.get(screen.fabric) ?? ''
    const made = await addScreen(
      database,
      { tag, frameId, fabricId, state: coating === null ? state : 'clean' },
      { at: later(at, index) },
    )
    byTag.set(tag, made.id)
    if (coating === null) continue
    const coatedAt = daysBefore(at, coating.daysAgo)
    const coat = { screenId: made.id, batchId: batches.get(coating.emulsion) ?? null }
    await coatScreen(database, { ...coat, recipe: RECIPE, coatedAt }, { at })
    if (state !== 'coated') await changeScreen(database, made.id, { state })
  }
  return byTag
}

/** Records of one list stand in its order: their names begin with their milliseconds. */
function later(at: Date, index: number): Date {
  return new Date(at.getTime() + index)
}

async function* parts(bytes: Uint8Array): AsyncGenerator<Uint8Array> {
  yield bytes
}
