import { may } from '../../api/roles.ts'
import { Failure } from '../../core/failure.ts'
import { type Machine, mayUse } from '../../core/register/machines.ts'
import type { Database } from '../../store/database/database.ts'
import { people } from '../../store/people.ts'
import { signOffs } from '../../store/signOffs.ts'
import { dayText } from '../shop/days.ts'
import type { Who } from './peopleKeeper.ts'

/**
 * Somebody signed in was shown a machine, and it still holds. Technicians and leads show it to
 * others; in an open shop nobody is asked.
 *
 * @throws Failure 'conflict' in a sentence that says who can give the sign-off
 */
export async function expectShown(
  database: Database,
  { isOpen, role, person }: Who,
  {
    machine,
    unit,
    now,
  }: Readonly<{ machine: Machine; unit: Readonly<{ id: string; name: string }>; now: Date }>,
): Promise<void> {
  if (isOpen || person === null || may(role, 'technician')) return
  const shown = (await signOffs(database, { personId: person.id })).map((signOff) => ({
    machine: signOff.machine,
    unitId: signOff.unitId,
    givenMs: signOff.givenAt.getTime(),
    expiresMs: signOff.expiresAt?.getTime() ?? null,
  }))
  const says = mayUse(shown, { machine, unitId: unit.id, nowMs: now.getTime() })
  if (says.verdict === 'may') return
  const givers = (await people(database))
    .filter((each) => may(each.role, 'technician'))
    .map(({ name }) => name)
  const why =
    says.verdict === 'run out'
      ? `Your sign-off for ${unit.name} ran out on ${dayText(new Date(says.expiredMs))}`
      : `Nobody has shown you ${unit.name} yet`
  throw new Failure('conflict', `${why}: ask ${orList(givers)} to show you and sign you off.`)
}

function orList(names: readonly string[]): string {
  const last = names.at(-1) ?? 'a technician'
  return names.length < 2 ? last : `${names.slice(0, -1).join(', ')} or ${last}`
}
