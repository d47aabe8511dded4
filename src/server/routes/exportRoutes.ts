import type { Context, Hono } from 'hono'
import { PATHS } from '../../api/paths.ts'
import { Failure } from '../../core/failure.ts'
import { exportRecords } from '../../store/export/exportRecords.ts'
import type { WholeReading } from '../../store/readings.ts'
import { countsOf } from '../../workflow/lightSetup.ts'
import { type NoteEntry, notesTable } from '../../workflow/notesTable.ts'
import type { ShopDoor } from '../door.ts'
import { streamed } from '../http/streamed.ts'
import { dayText } from '../shop/days.ts'
import { gradingOf } from '../shop/evidence.ts'
import { fabricName } from '../shop/lightThings.ts'
import type { ShopRecords } from '../shop/shopRecords.ts'

/** What leaves the shop in open forms; for those who know the token, as with a backup. */
export function addExports(app: Hono, door: ShopDoor): void {
  app.get(PATHS.exportRecords, (context) => {
    refuseUnknown(context)
    const { store, now } = door.shop()
    return streamed(context, 'application/json', (sink) =>
      exportRecords(store, sink, { at: now() }),
    )
  })
  app.get(PATHS.exportNotes, async (context) => {
    refuseUnknown(context)
    const records = await door.shop().records()
    const entries = records.taught
      .filter(({ whole }) => whole.reading.struckAt === null)
      .flatMap(({ whole }) => entriesOf(whole, records))
    return context.body(notesTable(entries), 200, {
      'content-type': 'text/csv; charset=utf-8',
      'cache-control': 'no-store',
    })
  })
}

function refuseUnknown(context: Context): void {
  if (context.req.header('authorization') !== undefined) return
  const message = 'Records leave by the command: export --out FILE, on the shop’s computer.'
  throw new Failure('not found', message)
}

/** One line a band; a wedge has none, as it names no medium. */
function entriesOf(
  { reading, bands }: WholeReading,
  { media, units, fabrics, batches, screens }: ShopRecords,
): readonly NoteEntry[] {
  const unit = units.find(({ id }) => id === reading.unitId)
  const fabric = fabrics.find(({ id }) => id === reading.fabricId)
  const nameIn = (
    all: readonly Readonly<{ id: string; name: string }>[],
    wanted: string | null,
  ): string | null => all.find(({ id }) => id === wanted)?.name ?? null
  return bands.map((band) => ({
    on: dayText(reading.takenAt),
    medium: nameIn(media, reading.mediumId),
    doseCounts: band.doseLu * (unit === undefined ? 1 : countsOf(unit)),
    grading: gradingOf(band),
    unit: unit?.name ?? '',
    fabric: fabric === undefined ? null : fabricName(fabric),
    batch: nameIn(batches, reading.batchId),
    screen: screens.find(({ record }) => record.id === reading.screenId)?.record.tag ?? null,
    lampHours: reading.lampHours,
    note: reading.note,
  }))
}
