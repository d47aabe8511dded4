import { density, lu, mm, perCm, share, um } from '../../src/core/units/quantity.ts'
import { addBase, type Base } from '../../src/store/bases.ts'
import { type Coating, coatScreen } from '../../src/store/coatings.ts'
import type { Database } from '../../src/store/database/database.ts'
import { addBatch, addEmulsion, type Batch, type Emulsion } from '../../src/store/emulsions.ts'
import { addFabric, type Fabric } from '../../src/store/fabrics.ts'
import { addFrame, type Frame } from '../../src/store/frames.ts'
import { addInk, type Ink } from '../../src/store/inks.ts'
import { addMedium, type Medium } from '../../src/store/media.ts'
import { addPerson, type Person } from '../../src/store/people.ts'
import { addScreen, type Screen } from '../../src/store/screens.ts'
import { foundShop, type Shop } from '../../src/store/shop.ts'
import { addUnit, fitLamp, type Lamp, type Unit } from '../../src/store/units.ts'

/** A moment in the test's own time: minutes after a day in 2026. */
export function minute(minutes: number): Date {
  return new Date(Date.UTC(2026, 8, 14, 8, minutes, 17, 431))
}

export type SampleRoom = Readonly<{
  shop: Shop
  person: Person
  unit: Unit
  lamp: Lamp
  fabric: Fabric
  frame: Frame
  emulsion: Emulsion
  batch: Batch
  base: Base
  medium: Medium
  ink: Ink
  screen: Screen
  coating: Coating
}>

/** An invented demo room: who works there, in what, with what; all numbers different. */
export async function fillRoom(database: Database): Promise<SampleRoom> {
  const at = minute(1)
  const person = await addPerson(
    database,
    { name: 'Demo Ölmez', role: 'technician', className: 'Thursday', units: 'inch' },
    { at },
  )
  const unit = await addUnit(
    database,
    { name: 'the demo lamp', counts: 'light units', luPerCount: 1.7, glassWidthMm: mm(1210) },
    { at },
  )
  const lamp = await fitLamp(
    database,
    {
      unitId: unit.id,
      kind: 'point',
      distanceMm: mm(815),
      sourceRadiusMm: mm(21),
      litHours: 143.25,
    },
    { at },
  )
  const fabric = await addFabric(
    database,
    {
      name: '90-48',
      threadsPerCm: perCm(90),
      threadUm: um(48),
      thicknessUm: um(72.5),
      colour: 'yellow',
      dyed: true,
    },
    { at },
  )
  const frame = await addFrame(
    database,
    { name: 'A2', insideWidthMm: mm(603), insideHeightMm: mm(805), outsideWidthMm: mm(681) },
    { at },
  )
  const emulsion = await addEmulsion(
    database,
    {
      name: 'demo ready-mixed',
      kind: 'ready-mixed',
      model: 'absorbing',
      gelDoseLu: lu(6.3),
      penetrationDepthUm: um(37.1),
      refractiveIndex: 1.52,
    },
    { at },
  )
  const batch = await addBatch(
    database,
    { emulsionId: emulsion.id, name: 'bucket 3', mixedAt: at, expiresAt: minute(90_000) },
    { at },
  )
  const base = await addBase(
    database,
    { name: 'matt film', baseDensity: density(0.16), thicknessUm: um(102), status: 'measured' },
    { at },
  )
  const medium = await addMedium(
    database,
    {
      name: 'soft pencil',
      madeBy: 'hand',
      weakestMeanDensity: density(0.93),
      weakestSdDensity: density(0.2),
      status: 'judged',
    },
    { at },
  )
  const ink = await addInk(
    database,
    {
      name: 'demo black',
      labL: 12.5,
      labA: -0.75,
      labB: 1.25,
      opacity: share(0.98),
      status: 'estimated',
    },
    { at },
  )
  const shop = await foundShop(
    database,
    {
      name: 'Demo room (invented)',
      kind: 'demo',
      units: 'mm',
      usualUnitId: unit.id,
      usualFabricId: fabric.id,
      usualBaseId: base.id,
      usualRecipe: 'once on each side',
    },
    { at },
  )
  const screen = await addScreen(
    database,
    {
      tag: '14',
      frameId: frame.id,
      fabricId: fabric.id,
      state: 'clean',
      rackSlot: 'B 3',
      ownerId: person.id,
      keptUntil: minute(50_000),
      tensionNewtonPerCm: 22.5,
    },
    { at },
  )
  const coating = await coatScreen(
    database,
    {
      screenId: screen.id,
      batchId: batch.id,
      recipe: 'once on each side',
      eomUm: um(8.5),
      coatedAt: at,
    },
    { at },
  )
  return {
    shop,
    person,
    unit,
    lamp,
    fabric,
    frame,
    emulsion,
    batch,
    base,
    medium,
    ink,
    screen,
    coating,
  }
}
