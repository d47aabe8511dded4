import type { FirstFacts } from '../../api/shop.ts'
import { mediumPrior } from '../../core/calibration/belief/priors.ts'
import { DEFAULT_BLEACHING_EMULSION, DEFAULT_EMULSION } from '../../core/emulsion/emulsion.ts'
import { FILM_BASES } from '../../core/film/bases.ts'
import { MEDIA, mediumNamed } from '../../core/film/media.ts'
import { density, lu, mm, um } from '../../core/units/quantity.ts'
import { addBase, type Base } from '../../store/bases.ts'
import { coatScreen } from '../../store/coatings.ts'
import { type Database, inTransaction } from '../../store/database/database.ts'
import { addBatch, addEmulsion, type Emulsion } from '../../store/emulsions.ts'
import { addFabric } from '../../store/fabrics.ts'
import { addFrame } from '../../store/frames.ts'
import { addMedium, type Medium } from '../../store/media.ts'
import { addReading } from '../../store/readings.ts'
import { addScreen } from '../../store/screens.ts'
import { foundShop } from '../../store/shop.ts'
import { addUnit, fitLamp } from '../../store/units.ts'
import type { Remembered } from '../../workflow/lightFirstDose.ts'
import { countsOf } from '../../workflow/lightSetup.ts'
import { dayOf } from './days.ts'
import { BASE_UM, FIRST_MEDIUM, type ToldShop, toldShop, USUAL_BASE } from './facts.ts'

type At = Readonly<{ at: Date }>

const PRINTED: readonly string[] = ['laser toner', 'inkjet film']
const SHOP_NAME = 'My shop'

/**
 * Founds somebody's own shop from the paragraph with five blanks: one unit, fabric, emulsion and
 * screen, the usual media and film bases, and what was remembered as the first readings.
 *
 * @throws Failure 'wrong input' for a fabric that is none, 'conflict' when there is a shop already
 */
export async function foundOwnShop(
  database: Database,
  facts: FirstFacts,
  { at }: At,
): Promise<void> {
  const told = toldShop(facts, { day: dayOf(at) })
  await inTransaction(database, async (inner) => {
    const { countsIn, countsPerLu, lamp } = told.exposure.unit
    const unit = await addUnit(
      inner,
      {
        name: 'our lamp',
        counts: countsIn,
        luPerCount: countsPerLu === null ? 1 : 1 / countsPerLu,
      },
      { at },
    )
    const radius = lamp.kind === 'point' ? { sourceRadiusMm: lamp.sourceRadiusMm } : {}
    const { kind, distanceMm } = lamp
    await fitLamp(inner, { unitId: unit.id, kind, distanceMm, ...radius, litHours: 0 }, { at })
    const base = await addBases(inner, { at })
    const media = await addMedia(inner, told.remembered, { at })
    const screen = await addOwnScreen(inner, { facts, told, at })
    for (const each of told.remembered) {
      const medium = media.get(each.medium)
      if (medium === undefined) continue
      const { fabricId, batchId, emulsionId, recipe } = screen
      await addReading(
        inner,
        {
          reading: {
            kind: 'outcome',
            takenAt: at,
            unitId: unit.id,
            fabricId,
            batchId,
            emulsionId,
            recipe,
            mediumId: medium.id,
            baseId: base.id,
            note: 'Remembered when the shop was set up.',
          },
          bands: [
            { doseLu: lu(each.doseCounts / countsOf(told.exposure.unit)), grade: each.outcome },
          ],
        },
        { at },
      )
    }
    await foundShop(
      inner,
      {
        name: facts.shopName ?? SHOP_NAME,
        kind: 'own',
        units: 'mm',
        usualUnitId: unit.id,
        usualFabricId: screen.fabricId,
        usualEmulsionId: screen.emulsionId,
        usualRecipe: screen.recipe,
        usualBaseId: base.id,
        usualMediumId: media.get(FIRST_MEDIUM)?.id ?? null,
      },
      { at },
    )
  })
}

/** The numbers of the usual emulsion of a kind. */
export function usualEmulsion(
  kind: Emulsion['kind'],
): Pick<Emulsion, 'kind' | 'model' | 'refractiveIndex'> & Partial<Emulsion> {
  if (kind === 'ready-mixed') {
    const { gelDoseLu, penetrationDepthUm, model } = DEFAULT_EMULSION
    return { kind, model, gelDoseLu, penetrationDepthUm, refractiveIndex: 1.5 }
  }
  const { aPerUm, bPerUm, cPerLu, gelShare, model } = DEFAULT_BLEACHING_EMULSION
  return { kind, model, aPerUm, bPerUm, cPerLu, gelShare, refractiveIndex: 1.5 }
}

/** All film bases that are usual; gives the one that is usual here. */
export async function addBases(
  database: Database,
  { at, usual = USUAL_BASE }: At & Readonly<{ usual?: string }>,
): Promise<Base> {
  let found: Base | null = null
  for (const { name, baseDensity, status } of FILM_BASES) {
    const thicknessUm = um(BASE_UM[name] ?? 100)
    const base = await addBase(database, { name, baseDensity, thicknessUm, status }, { at })
    if (name === usual) found = base
  }
  if (found === null) throw new RangeError(`bases: expected ${usual} among them`)
  return found
}

/** The usual media, and whatever else was named, of which little is believed. */
async function addMedia(
  database: Database,
  remembered: readonly Remembered[],
  { at }: At,
): Promise<ReadonlyMap<string, Medium>> {
  const media = new Map<string, Medium>()
  for (const { name } of MEDIA) media.set(name, await addMediumNamed(database, name, { at }))
  for (const { medium } of remembered) {
    const known = mediumNamed(medium)?.name ?? medium.trim()
    const record = media.get(known) ?? (await addMediumNamed(database, known, { at }))
    media.set(known, record).set(medium, record)
  }
  return media
}

/** A medium with what is believed of one of that name. */
export function addMediumNamed(database: Database, name: string, { at }: At): Promise<Medium> {
  const { mean, sd } = mediumPrior(name)
  const solid = mediumNamed(name)?.solid ?? null
  return addMedium(
    database,
    {
      name,
      madeBy: PRINTED.includes(name) ? 'printer' : 'hand',
      weakestMeanDensity: density(mean),
      weakestSdDensity: density(sd),
      solidLowDensity: solid?.low ?? null,
      solidHighDensity: solid?.high ?? null,
      status: 'judged',
    },
    { at },
  )
}

type OwnScreen = Readonly<{ fabricId: string; emulsionId: string; batchId: string; recipe: string }>

async function addOwnScreen(
  database: Database,
  { facts, told, at }: Readonly<{ facts: FirstFacts; told: ToldShop; at: Date }>,
): Promise<OwnScreen> {
  const dyed = facts.colour === 'dyed'
  const colour = dyed ? 'yellow' : 'white'
  const fabric = await addFabric(database, { ...told.weave, colour, dyed }, { at })
  const kind = facts.emulsion === 'two-part' ? 'diazo' : 'ready-mixed'
  const emulsion = await addEmulsion(
    database,
    {
      name: `our ${kind === 'diazo' ? 'two-part' : 'ready-mixed'} emulsion`,
      ...usualEmulsion(kind),
    },
    { at },
  )
  const batch = await addBatch(
    database,
    { emulsionId: emulsion.id, name: 'the open bucket', mixedAt: at },
    { at },
  )
  const frame = await addFrame(
    database,
    { name: '500 x 700', insideWidthMm: mm(500), insideHeightMm: mm(700) },
    { at },
  )
  const screen = await addScreen(
    database,
    { tag: '1', frameId: frame.id, fabricId: fabric.id, state: 'clean' },
    { at },
  )
  const recipe = facts.coats ?? 'once on each side'
  await coatScreen(
    database,
    { screenId: screen.id, batchId: batch.id, recipe, coatedAt: at },
    { at },
  )
  return { fabricId: fabric.id, emulsionId: emulsion.id, batchId: batch.id, recipe }
}
