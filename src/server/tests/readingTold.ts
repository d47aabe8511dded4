import type { NewReading as ToldReading } from '../../api/tests.ts'
import { USUAL_WEDGE } from '../../core/calibration/wedge.ts'
import { Failure } from '../../core/failure.ts'
import { DOSE } from '../../core/light/doseField.ts'
import { density, type Lu, lu, mm } from '../../core/units/quantity.ts'
import { filmOf } from '../../store/films.ts'
import type { NewBand, NewReading } from '../../store/readings.ts'
import { beliefInMarks } from '../../workflow/lightMarks.ts'
import type { LightUnit, ReadMarks } from '../../workflow/lightRecords.ts'
import { countsOf, lightSetup } from '../../workflow/lightSetup.ts'
import { keptFindings } from '../films/filmForecasts.ts'
import { byPhotoOf, readMarks } from '../films/filmMarks.ts'
import { toldDay } from '../shop/days.ts'
import { baseAsked, mediumAsked, screenAsked, unitAsked } from '../shop/exposureAsked.ts'
import { fabricName } from '../shop/lightThings.ts'
import { batchAsked, fabricAsked } from '../shop/setUpAsked.ts'
import { baseNamed, type ShopRecords } from '../shop/shopRecords.ts'
import type { ShopService } from '../shop/shopService.ts'
import { timeUnder } from '../shop/unitTimings.ts'

type Reading = NewReading['reading']
type Things = Pick<
  Reading,
  'unitId' | 'lampHours' | 'emulsionId' | 'batchId' | 'recipe' | 'fabricId' | 'screenId'
>
type Marks = Pick<Reading, 'mediumId' | 'filmId' | 'marksDensity' | 'marksDensitySd' | 'baseId'>

/**
 * What somebody tells as a record of the shop: things by their names, doses in light units.
 *
 * @param personId who took it; null: nobody said who
 * @throws Failure 'wrong input' or 'not found' with the field, in a sentence
 */
export async function readingTold(
  service: ShopService,
  told: ToldReading,
  { personId }: Readonly<{ personId: string | null }>,
): Promise<NewReading> {
  const records = await service.records()
  const unit = unitAsked(records, told.unit)
  const counts = countsOf(unit) * (await shortOfHot(service, told, unit))
  const now = service.now()
  const takenAt = toldDay(told.on, now)
  const isNow = takenAt.getTime() === now.getTime()
  const place = told.place === undefined ? {} : placeOf(told.place)
  const common = {
    takenAt,
    personId,
    ...thingsOf(records, told),
    lampHours: isNow ? unit.lampHours : null,
    ...place,
    note: told.note === undefined || told.note === '' ? null : told.note,
  }
  if (told.kind === 'wedge') {
    const base = told.base === undefined ? null : baseAsked(records, told.base).id
    const wedge = wedgeOf(told, { counts })
    return { reading: { kind: 'wedge', ...common, baseId: base, ...wedge }, bands: [] }
  }
  const marks = await marksOf(service, { told, records })
  const bands: readonly NewBand[] =
    told.kind === 'strip'
      ? told.bands.map(({ doseLu, is }) => ({ doseLu: doseOf(doseLu, counts), ...is }))
      : [{ doseLu: doseOf(told.doseLu, counts), ...told.is }]
  return { reading: { kind: told.kind, ...common, ...marks }, bands }
}

/**
 * What seconds of a cold lamp are worth against those of a hot one, turned over: 1 where a counter
 * counts light, or the lamp was hot. Of a strip's bands the largest dose decides.
 *
 * @throws Failure 'conflict' while nobody has timed the lamp from cold
 */
async function shortOfHot(
  service: ShopService,
  told: ToldReading,
  { id, name, countsIn }: LightUnit,
): Promise<number> {
  if (countsIn === 'light units' || told.from !== 'cold') return 1
  const sec =
    told.kind === 'strip' ? Math.max(...told.bands.map(({ doseLu }) => doseLu)) : told.doseLu
  const time = await timeUnder(service, { id, countsIn }, { count: sec })
  if (time !== null) return sec / time.plainCount
  const message = `Nobody has timed ${name} from cold yet, so what its cold seconds are worth cannot be told: time it first, or light it hot.`
  throw new Failure('conflict', message, { field: 'from' })
}

function doseOf(count: number, counts: number): Lu {
  const dose = count / counts
  if (dose >= DOSE.low && dose <= DOSE.high) return lu(dose)
  const message = `A dose of ${count} is more or less than any lamp gives: check the number.`
  throw new Failure('wrong input', message, { field: 'doseLu' })
}

function placeOf({ xMm, yMm }: Readonly<{ xMm: number; yMm: number }>) {
  return { xMm: mm(xMm), yMm: mm(yMm) }
}

/** A screen says its fabric and bucket; without one they are named, or usual. */
function thingsOf(records: ShopRecords, { screen, fabric, batch, unit }: ToldReading): Things {
  const unitId = unitAsked(records, unit).id
  const bucket = (id: string | null | undefined) => records.batches.find((each) => each.id === id)
  if (screen === undefined) {
    const known = batchAsked(records, batch)
    return {
      unitId,
      fabricId: fabricAsked(records, fabric).id,
      batchId: known?.id ?? null,
      emulsionId: known?.emulsionId ?? null,
      recipe: records.shop.usualRecipe,
      screenId: null,
    }
  }
  const { record, fabric: own, light } = screenAsked(records, screen)
  if (fabric !== undefined && fabricAsked(records, fabric).id !== own.id) {
    const message = `Screen ${record.tag} has the fabric ${fabricName(own)}: leave the fabric out, or name another screen.`
    throw new Failure('wrong input', message, { field: 'fabric' })
  }
  const coated = light.coating?.emulsion?.id ?? null
  if (batch !== undefined && coated !== null && batchAsked(records, batch)?.id !== coated) {
    const message = `Screen ${record.tag} was coated from another bucket: leave the bucket out, or name another screen.`
    throw new Failure('wrong input', message, { field: 'batch' })
  }
  const known = bucket(coated) ?? batchAsked(records, batch)
  return {
    unitId,
    fabricId: own.id,
    batchId: known?.id ?? null,
    emulsionId: known?.emulsionId ?? null,
    recipe: light.coating?.coats ?? records.shop.usualRecipe,
    screenId: record.id,
  }
}

type ToldWedge = Extract<ToldReading, { kind: 'wedge' }>

function wedgeOf(
  { doseLu, wedge = USUAL_WEDGE, lastSolidStep, firstClearStep }: ToldWedge,
  { counts }: Readonly<{ counts: number }>,
) {
  const { steps } = wedge
  if (lastSolidStep > steps) {
    const message = `The wedge has ${steps} steps: the last solid one cannot be ${lastSolidStep}.`
    throw new Failure('wrong input', message, { field: 'lastSolidStep' })
  }
  if (firstClearStep !== undefined && firstClearStep > steps + 1) {
    const message = `The wedge has ${steps} steps: say ${steps + 1} when none of them washed clear.`
    throw new Failure('wrong input', message, { field: 'firstClearStep' })
  }
  if (firstClearStep !== undefined && firstClearStep <= lastSolidStep) {
    const message = `Step ${firstClearStep} cannot be clear when step ${lastSolidStep} is still solid: read the wedge again, the clearest step is number 1.`
    throw new Failure('wrong input', message, { field: 'firstClearStep' })
  }
  return {
    doseLu: doseOf(doseLu, counts),
    firstDensity: density(wedge.firstDensity),
    increment: density(wedge.increment),
    steps,
    lastSolidStep,
    firstClearStep: firstClearStep ?? null,
  }
}

type ToldMarks = Exclude<ToldReading, { kind: 'wedge' }>

/** Of a film that was read its own marks count, else its medium. */
async function marksOf(
  service: ShopService,
  { told, records }: Readonly<{ told: ToldMarks; records: ShopRecords }>,
): Promise<Marks> {
  const { film, medium, base } = told
  if (film === undefined) {
    if (medium === undefined) throw noMarks()
    const baseId = (base === undefined ? records.usualBase : baseAsked(records, base)).id
    return { mediumId: mediumAsked(records, medium).id, baseId }
  }
  const record = await filmOf(service.store.database, film)
  const mediumId = medium === undefined ? record.mediumId : mediumAsked(records, medium).id
  const lying = base === undefined ? baseNamed(records, record.baseId) : baseAsked(records, base)
  const marks = await marksRead(service, { film: record, told, records, base: lying })
  if (marks === null && mediumId === null) throw noMarks()
  return {
    filmId: record.id,
    mediumId,
    baseId: lying.id,
    ...densityOf(marks, { photo: byPhotoOf(record), records, mediumId }),
  }
}

/** What the marks count as; how far that can be off only where a photo says so. */
function densityOf(
  marks: ReadMarks | null,
  {
    photo,
    records,
    mediumId,
  }: Readonly<{
    photo: ReturnType<typeof byPhotoOf>
    records: ShopRecords
    mediumId: string | null
  }>,
): Pick<Reading, 'marksDensity' | 'marksDensitySd'> {
  if (marks === null) return { marksDensity: null, marksDensitySd: null }
  const medium = records.media.find(({ id }) => id === mediumId)?.name ?? null
  const { mean, sd } = beliefInMarks(marks, { photo, medium })
  return { marksDensity: mean, marksDensitySd: photo === null ? null : sd }
}

async function marksRead(
  service: ShopService,
  {
    film,
    told,
    records,
    base,
  }: Readonly<{
    film: Awaited<ReturnType<typeof filmOf>>
    told: ToldMarks
    records: ShopRecords
    base: ShopRecords['usualBase']
  }>,
): Promise<ReadMarks | null> {
  const screen = told.screen === undefined ? null : screenAsked(records, told.screen).light
  const setup = lightSetup({ base, screen, unit: unitAsked(records, told.unit) })
  const findings = await keptFindings(service, { film, setup })
  return findings === null ? null : readMarks(findings)
}

function noMarks(): Failure {
  const message = 'Say what the marks were made with: how a screen comes out depends on it.'
  return new Failure('wrong input', message, { field: 'medium' })
}
