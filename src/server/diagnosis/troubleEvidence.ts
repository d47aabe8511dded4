import { runAbout } from '../../api/bench.ts'
import type { ShopEvidence } from '../../core/diagnosis/evidence.ts'
import { runState } from '../../core/runSheet/progress.ts'
import { allCoatings, type Coating } from '../../store/coatings.ts'
import { batches } from '../../store/emulsions.ts'
import { exposureOf } from '../../store/exposures.ts'
import { readings } from '../../store/readings.ts'
import { type Run, type RunEventRecord, runEvents, runOf } from '../../store/runs.ts'
import { things } from '../../store/things.ts'
import { unitOf, units } from '../../store/units.ts'
import { lampAnswer } from '../../workflow/lampAnswer.ts'
import { eventOf, stepsIn } from '../bench/runAnswer.ts'
import type { ShopService } from '../shop/shopService.ts'
import { unitTimings } from '../shop/unitTimings.ts'

const MIN_MS = 60_000
const DAY_MS = 24 * 60 * MIN_MS
/** Noted longer ago, the room's humidity is another one. Judged. */
const HUMIDITY_DAYS = 3
const LATELY = 3

const NOTHING: ShopEvidence = {
  driedMin: null,
  cabinetMin: null,
  humidityShare: null,
  coatedDays: null,
  goodForDays: null,
  bucketPastDate: null,
  countGot: null,
  plannedCount: null,
  plannedLow: null,
  plannedHigh: null,
  vacuum: null,
  lampShare: null,
  lately: [],
}

/** What the shop's records hold that bears on a failure: of its exposure, or of the room alone. */
export async function troubleEvidence(
  service: ShopService,
  runId: string | null,
): Promise<ShopEvidence> {
  const { database } = service.store
  const coatings = await allCoatings(database)
  const room = {
    ...NOTHING,
    cabinetMin: cabinetMin(coatings),
    humidityShare: await humidityShare(service),
  }
  if (runId === null) {
    const [first] = await units(database)
    const unitId = first?.unit.id
    return unitId === undefined ? room : { ...room, ...(await ofUnit(service, unitId)) }
  }
  const run = await runOf(database, runId)
  const { exposure } = await exposureOf(database, run.exposureId)
  const at = exposure.litAt ?? run.begunAt
  const coating = coatings.findLast(
    ({ id, screenId, coatedAt }) =>
      id === exposure.coatingId || (screenId === exposure.screenId && coatedAt <= at),
  )
  const batch = (await batches(database)).find(({ id }) => id === coating?.batchId)
  const days = (from: Date, to: Date): number => (to.getTime() - from.getTime()) / DAY_MS
  return {
    ...room,
    ...(await ofUnit(service, exposure.unitId)),
    ...ofRun(run, await runEvents(database, { runId })),
    driedMin: coating === undefined ? null : (at.getTime() - coating.coatedAt.getTime()) / MIN_MS,
    coatedDays: coating === undefined ? null : days(coating.coatedAt, at),
    goodForDays:
      coating === undefined || coating.goodUntil === null
        ? null
        : days(coating.coatedAt, coating.goodUntil),
    bucketPastDate:
      batch === undefined || batch.expiresAt === null || coating === undefined
        ? null
        : batch.expiresAt < coating.coatedAt,
  }
}

/** The count against its plan, and what was said of the vacuum. */
function ofRun(run: Run, events: readonly RunEventRecord[]): Partial<ShopEvidence> {
  const { dose } = runAbout.parse(run.about)
  const { readCount, setCount, doneMs } = runState(stepsIn(run), events.map(eventOf))
  const wrong = events.some(({ kind, step }) => kind === 'not right' && step === 'vacuum')
  return {
    countGot: readCount ?? setCount,
    plannedCount: dose.value,
    plannedLow: dose.low,
    plannedHigh: dose.high,
    vacuum: wrong ? 'low' : doneMs.has('vacuum') ? 'as always' : null,
  }
}

async function ofUnit(service: ShopService, unitId: string): Promise<Partial<ShopEvidence>> {
  const { database } = service.store
  const outcomes = (await readings(database)).flatMap(({ reading, bands }) => {
    if (reading.kind !== 'outcome' || reading.unitId !== unitId) return []
    return bands
      .slice(0, 1)
      .map(({ grade, ground, marks }) =>
        grade === 'good' || (ground === 'sound' && marks === 'open') ? 'good' : 'failed',
      )
  })
  return {
    lampShare: await service.kept(`lamp share ${unitId}`, () => lampShare(service, unitId)),
    lately: outcomes.toReversed().slice(0, LATELY),
  }
}

/** The middle of how long screens took from coat to dry, as it was noted. */
function cabinetMin(coatings: readonly Coating[]): number | null {
  const took = dryingMinutes(coatings).toSorted((a, b) => a - b)
  return took[Math.floor(took.length / 2)] ?? null
}

/** Of each screen that somebody felt to be dry, in minutes. */
export function dryingMinutes(coatings: readonly Coating[]): readonly number[] {
  return coatings.flatMap(({ coatedAt, dryNotedAt }) =>
    dryNotedAt === null ? [] : [(dryNotedAt.getTime() - coatedAt.getTime()) / MIN_MS],
  )
}

async function humidityShare({ store, now }: ShopService): Promise<number | null> {
  const since = now().getTime() - HUMIDITY_DAYS * DAY_MS
  const noted = (await things(store.database)).findLast(
    ({ kind, changedAt, facts }) =>
      kind === 'handover' &&
      changedAt.getTime() >= since &&
      typeof (facts as Readonly<Record<string, unknown>>)['humidityShare'] === 'number',
  )
  if (noted === undefined) return null
  return (noted.facts as Readonly<{ humidityShare: number }>).humidityShare
}

/** The lamp's full light when it was last timed against the first time; null: timed once or never. */
async function lampShare(service: ShopService, unitId: string): Promise<number | null> {
  const { counts } = (await unitOf(service.store.database, unitId)).unit
  const timings = await unitTimings(service, unitId)
  const points = lampAnswer({ countsIn: counts, timings, usualCounts: [] }).ageing?.points ?? []
  const [first, last] = [points[0], points.at(-1)]
  if (first === undefined || last === undefined || first === last) return null
  return last.hotPerSec / first.hotPerSec
}
