import type { ClassSignOff } from '../../api/people.ts'
import { mayUse } from '../../core/register/machines.ts'
import { type Database, inTransaction } from '../../store/database/database.ts'
import { giveSignOff, machineOf, signOffs } from '../../store/signOffs.ts'
import { signOffEnds } from './actOnPerson.ts'
import { classMembers } from './classLeaves.ts'
import type { Who } from './peopleKeeper.ts'

/**
 * A whole class was shown machines; who has a sign-off that holds as long keeps it.
 *
 * @throws Failure 'not found' for a class that nobody is in, 'wrong input' for a day that is over
 */
export async function classShown(
  database: Database,
  { className, machines, expiresOn }: ClassSignOff,
  { who, now }: Readonly<{ who: Who; now: Date }>,
): Promise<void> {
  const expiresAt = signOffEnds(expiresOn, now)
  const members = await classMembers(database, className)
  // the last moment for which it is asked whether there is one already
  const untilMs = (expiresAt?.getTime() ?? Number.MAX_SAFE_INTEGER) - 1
  await inTransaction(database, async (inner) => {
    const there = await signOffs(inner)
    for (const { id: personId } of members) {
      const own = there
        .filter((each) => each.personId === personId && machineOf(each) === null)
        .map(({ machine, givenAt, expiresAt: ends }) => ({
          machine,
          unitId: null,
          givenMs: givenAt.getTime(),
          expiresMs: ends?.getTime() ?? null,
        }))
      for (const machine of new Set(machines)) {
        if (mayUse(own, { machine, unitId: null, nowMs: untilMs }).verdict === 'may') continue
        const given = { personId, machine, unitId: null, expiresAt, givenAt: now }
        await giveSignOff(inner, { ...given, givenById: who.person?.id ?? null }, { at: now })
      }
    }
  })
}
