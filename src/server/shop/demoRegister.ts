import { lu } from '../../core/units/quantity.ts'
import type { DemoFilmName } from '../../demo/films.ts'
import { DEMO_CLASS, DEMO_REGISTER, DEMO_SIGN_OFFS } from '../../demo/register.ts'
import type { Database } from '../../store/database/database.ts'
import { planExposure, recordExposure } from '../../store/exposures.ts'
import { changePerson } from '../../store/people.ts'
import { addScreenEvent } from '../../store/screenEvents.ts'
import { changeScreen } from '../../store/screens.ts'
import { giveSignOff } from '../../store/signOffs.ts'
import { daysBefore } from './demoPast.ts'

type Ids = ReadonlyMap<string, string>

const MEASURED_DAYS_AGO = 20
const GIVEN_DAYS_AGO = 60
const LIT_DAYS_AGO = 2
const GIVER = 'Maro Linde'
const SLOT_DAYS_AGO = 1
const DOSE_LU = 42

/** Where the demo shop's screens stand and whose they are, and what its people were shown. */
export async function addDemoRegister(
  database: Database,
  {
    screens,
    people,
    unitId,
    films,
    at,
  }: Readonly<{
    screens: Ids
    people: Ids
    unitId: string
    films: ReadonlyMap<DemoFilmName, string>
    at: Date
  }>,
): Promise<void> {
  const giverId = people.get(GIVER) ?? null
  for (const place of DEMO_REGISTER) {
    const screenId = screens.get(place.tag)
    if (screenId === undefined) continue
    const { slot: rackSlot, tension: tensionNewtonPerCm, keptDays } = place
    const ownerId = people.get(place.owner ?? '') ?? null
    const keptUntil = keptDays === undefined ? null : daysBefore(at, -keptDays)
    const tensionMeasuredAt = tensionNewtonPerCm === null ? null : daysBefore(at, MEASURED_DAYS_AGO)
    const measured = { tensionNewtonPerCm, tensionMeasuredAt }
    const haze = place.haze ?? false
    await changeScreen(database, screenId, { rackSlot, ownerId, keptUntil, haze, ...measured })
    const put = { screenId, kind: 'slot', rackSlot, personId: giverId } as const
    const happenedAt = daysBefore(at, SLOT_DAYS_AGO)
    await addScreenEvent(database, { event: { ...put, happenedAt } }, { at })
    const filmId = place.film === undefined ? undefined : films.get(place.film)
    if (filmId === undefined) continue
    const exposure = { screenId, unitId, plannedDoseLu: lu(DOSE_LU), why: [] }
    const { exposure: lit } = await planExposure(
      database,
      { exposure, filmIds: [filmId] },
      { at: daysBefore(at, LIT_DAYS_AGO) },
    )
    await recordExposure(database, lit.id, {}, { at: daysBefore(at, LIT_DAYS_AGO) })
  }
  for (const { name, machine, days } of DEMO_SIGN_OFFS) {
    const personId = people.get(name)
    if (personId === undefined) continue
    const givenAt = daysBefore(at, GIVEN_DAYS_AGO)
    const given = { personId, machine, unitId: null, givenById: giverId, givenAt }
    await giveSignOff(database, { ...given, expiresAt: daysBefore(at, -days) }, { at })
    await changePerson(database, personId, { className: DEMO_CLASS })
  }
}
