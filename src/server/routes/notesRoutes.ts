import { PATHS } from '../../api/paths.ts'
import { type NotesRead, notes, notesRead } from '../../api/tests.ts'
import { outcomeBand } from '../../core/calibration/belief/evidence.ts'
import type { Grading } from '../../core/calibration/belief/grades.ts'
import { lu } from '../../core/units/quantity.ts'
import { tableRows } from '../../decode/tableRows.ts'
import { addReadings, type NewBand, type NewReading } from '../../store/readings.ts'
import { countsOf } from '../../workflow/lightSetup.ts'
import { readNotes } from '../../workflow/notes.ts'
import type { KnownReading, NoteLine } from '../../workflow/notesRecords.ts'
import type { ShopDoor } from '../door.ts'
import { type Route, route, type Told } from '../http/route.ts'
import { dayOf, toldDay } from '../shop/days.ts'
import type { Taught } from '../shop/evidence.ts'
import { fabricName } from '../shop/lightThings.ts'
import { type SetUp, setUpAsked } from '../shop/setUpAsked.ts'
import type { ShopRecords } from '../shop/shopRecords.ts'
import type { ShopService } from '../shop/shopService.ts'

/** Lines that are shown before they are taken. */
const MOST_SHOWN = 50

/** A shop's old notes: looked through, and taken down when somebody says so. */
export function notesRoutes(door: ShopDoor): readonly Route[] {
  return [
    route({
      method: 'post',
      path: PATHS.notes,
      summary:
        'reads a table of date, medium, dose and outcome; with dryRun nothing is taken down. What a line does not say is as in the set-up',
      body: notes,
      answer: notesRead,
      run: async ({ body: { text, dryRun, slashDates, ...asked } }): Promise<Told<NotesRead>> => {
        const service = door.shop()
        const records = await service.records()
        const setUp = setUpAsked(records, asked)
        const { taken, lines, problems, slashDatesUnclear } = readNotes(tableRows(text), {
          today: dayOf(service.now()),
          known: knownTo(records),
          slashDates,
          countsIn: setUp.exposure.unit.countsIn,
        })
        if (!dryRun && taken.length > 0) await takeDown(service, { taken, records, setUp })
        return {
          kind: 'notes',
          dryRun,
          lines,
          taken: taken.length,
          problems,
          slashDatesUnclear,
          preview: taken.slice(0, MOST_SHOWN).map(({ line, says }) => ({ line, says })),
        }
      },
    }),
  ]
}

function knownTo(records: ShopRecords): Parameters<typeof readNotes>[1]['known'] {
  const { media, units, fabrics, batches, taught } = records
  return {
    media,
    units,
    fabrics: fabrics.map((fabric) => ({ id: fabric.id, name: fabricName(fabric) })),
    batches,
    readings: taught.flatMap((each) => knownReading(each, records)),
  }
}

/** A finished screen of the shop's memory, as notes would tell it. */
function knownReading(
  { whole: { reading }, evidence }: Taught,
  { units }: ShopRecords,
): readonly KnownReading[] {
  if (evidence?.kind !== 'outcome' || reading.mediumId === null) return []
  const counts = units.find(({ id }) => id === reading.unitId)?.countsPerLu ?? 1
  const band = outcomeBand(evidence)
  return [
    {
      day: dayOf(reading.takenAt),
      medium: reading.mediumId,
      doseCounts: band.doseLu * counts,
      grading: band,
      unit: reading.unitId,
      fabric: reading.fabricId ?? undefined,
      batch: reading.batchId ?? undefined,
    },
  ]
}

async function takeDown(
  service: ShopService,
  {
    taken,
    records,
    setUp,
  }: Readonly<{ taken: readonly NoteLine[]; records: ShopRecords; setUp: SetUp }>,
): Promise<void> {
  const at = service.now()
  const rows = taken.map((line) => rowOf(line, { records, setUp, now: at }))
  await addReadings(service.store.database, rows, { at })
  service.changed('readings')
}

function rowOf(
  line: NoteLine,
  { records, setUp, now }: Readonly<{ records: ShopRecords; setUp: SetUp; now: Date }>,
): NewReading {
  const unit = records.units.find(({ id }) => id === line.unit?.id) ?? setUp.exposure.unit
  const batch = records.batches.find(({ id }) => id === line.batch?.id) ?? setUp.batch
  const screen = records.screens.find(({ record }) => record.tag === line.screen)
  const named = [
    line.screen === undefined || screen ? '' : `screen ${line.screen}`,
    line.film ?? '',
    line.note ?? '',
  ]
  return {
    reading: {
      kind: 'outcome',
      takenAt: toldDay(line.on, now),
      personId: null,
      exposureId: null,
      unitId: unit.id,
      lampHours: line.lampHours ?? null,
      emulsionId: batch?.emulsionId ?? null,
      batchId: batch?.id ?? null,
      recipe: records.shop.usualRecipe,
      fabricId: line.fabric?.id ?? setUp.fabric.id,
      screenId: screen?.record.id ?? null,
      filmId: null,
      mediumId: line.medium.id,
      baseId: records.usualBase.id,
      doseLu: null,
      firstDensity: null,
      increment: null,
      steps: null,
      lastSolidStep: null,
      firstClearStep: null,
      xMm: null,
      yMm: null,
      marksDensity: null,
      marksDensitySd: null,
      note: named.filter((part) => part !== '').join('; ') || null,
      noteLine: `${line.line}: ${line.says}`.slice(0, 500),
    },
    bands: [bandOf(line.grading, line.doseCounts / countsOf(unit))],
  }
}

function bandOf(grading: Grading, doseLu: number): NewBand {
  const dose = { doseLu: lu(doseLu) }
  if ('grade' in grading) return { ...dose, grade: grading.grade }
  const { ground, marks } = grading
  return { ...dose, ground, marks: marks ?? 'open' }
}
