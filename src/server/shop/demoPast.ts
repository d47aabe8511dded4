import { density, lu, mm } from '../../core/units/quantity.ts'
import { type DemoReading, demoHistory } from '../../demo/history.ts'
import { demoSurvey, demoTimings } from '../../demo/historyLamp.ts'
import { DEMO_SHOP } from '../../demo/shop.ts'
import type { Base } from '../../store/bases.ts'
import { addPastCoatings } from '../../store/coatings.ts'
import type { Database } from '../../store/database/database.ts'
import { addSurvey } from '../../store/evenness.ts'
import { addLampTiming } from '../../store/lampTimings.ts'
import type { Medium } from '../../store/media.ts'
import { addGlassMark } from '../../store/placements.ts'
import { addReadings, type NewReading, strikeReading } from '../../store/readings.ts'

/** How the demo shop coats. */
export const RECIPE = 'once on each side'
const DAY_MS = 24 * 3600_000

type Ids = ReadonlyMap<string, string>

/** The two buckets of the usual emulsion. */
export type DemoBuckets = Readonly<{ emulsionId: string; old: string; open: string }>

type Things = Readonly<{
  unitId: string
  lampId: string
  usual: DemoBuckets
  fabrics: Ids
  people: Ids
  screens: Ids
  bases: ReadonlyMap<string, Base>
  media: ReadonlyMap<string, Medium>
  at: Date
}>

/** What the demo shop's people told in the weeks before it was founded here. Demo. */
export async function addDemoPast(database: Database, things: Things): Promise<void> {
  const { unitId, lampId, usual, screens, at } = things
  const { coatings, readings } = demoHistory()
  const coated = coatings.map(({ screen, bucket, coatedDaysAgo, removedDaysAgo }, index) => ({
    screenId: screens.get(screen) ?? '',
    batchId: usual[bucket],
    recipe: RECIPE,
    coatedAt: daysBefore(at, coatedDaysAgo),
    dryAt: daysBefore(at, coatedDaysAgo - driedDays(index)),
    dryNotedAt: daysBefore(at, coatedDaysAgo - driedDays(index)),
    removedAt: daysBefore(at, removedDaysAgo),
  }))
  await addPastCoatings(database, coated, { at })
  const told = readings.map((reading, index) => recordOf(reading, things, index))
  const taken = await addReadings(database, told, { at })
  for (const [index, { struck }] of readings.entries()) {
    const id = taken[index]?.reading.id
    if (struck === undefined || id === undefined) continue
    const by = { reason: struck.reason, byId: null }
    await strikeReading(database, id, by, { at: daysBefore(at, struck.daysAgo) })
  }
  for (const { daysAgo, from, lampHours, pairs } of demoTimings()) {
    const run = { started: from, lampHours, pairs, takenAt: daysBefore(at, daysAgo) }
    await addLampTiming(database, { unitId, lampId, ...run }, { at })
  }
  const { daysAgo, glass, doseCounts, wedge, places } = demoSurvey()
  const survey = {
    unitId,
    lampId,
    takenAt: daysBefore(at, daysAgo),
    glassWidthMm: mm(glass.widthMm),
    glassHeightMm: mm(glass.heightMm),
    doseLu: lu(doseCounts / DEMO_SHOP.unit.countsPerLu),
    firstDensity: density(wedge.firstDensity),
    increment: density(wedge.increment),
    steps: wedge.steps,
  }
  const wedges = places.map((place) => ({ ...place, xMm: mm(place.xMm), yMm: mm(place.yMm) }))
  await addSurvey(database, { survey, wedges }, { at })
  await addGlassMark(database, { unitId, ...DEMO_SHOP.glassMark }, { at })
}

export function daysBefore(at: Date, days: number): Date {
  return new Date(at.getTime() - days * DAY_MS)
}

/** 36 to 55 minutes in the cabinet, one after another. */
function driedDays(index: number): number {
  return (36 + ((index * 7) % 20)) / (24 * 60)
}

function recordOf(told: DemoReading, things: Things, index: number): NewReading {
  const { unitId, usual, fabrics, people, screens, bases, media, at } = things
  const doseOf = (counts: number) => lu(counts / DEMO_SHOP.unit.countsPerLu)
  const common = {
    // readings of one day stand in the order in which they were told
    takenAt: new Date(daysBefore(at, told.daysAgo).getTime() + index),
    personId: people.get(told.person) ?? null,
    unitId,
    lampHours: told.lampHours,
    emulsionId: usual.emulsionId,
    batchId: usual[told.bucket],
    recipe: RECIPE,
    fabricId: fabrics.get(told.fabric) ?? null,
    screenId: screens.get(told.screen) ?? null,
  }
  if (told.kind === 'wedge') {
    const { wedge, doseCounts, lastSolidStep, firstClearStep } = told
    const of = {
      doseLu: doseOf(doseCounts),
      firstDensity: density(wedge.firstDensity),
      increment: density(wedge.increment),
      steps: wedge.steps,
      lastSolidStep,
      firstClearStep,
    }
    return { reading: { kind: 'wedge', ...common, ...of }, bands: [] }
  }
  const marks = {
    mediumId: media.get(told.medium)?.id ?? null,
    baseId: bases.get(told.base)?.id ?? null,
  }
  const bands = told.kind === 'strip' ? told.bands : [told]
  return {
    reading: { kind: told.kind, ...common, ...marks },
    bands: bands.map(({ doseCounts, grade }) => ({ doseLu: doseOf(doseCounts), grade })),
  }
}
