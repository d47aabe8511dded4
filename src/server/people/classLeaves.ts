import { Failure } from '../../core/failure.ts'
import { type Database, inTransaction } from '../../store/database/database.ts'
import { changePerson, people } from '../../store/people.ts'
import { endSessions } from '../../store/sessions.ts'
import { takenOutAfter } from './actOnPerson.ts'

/**
 * The end of a term: the printers and guests of a class leave together, all or none.
 *
 * @param deleteAfter the day after which their names are taken out; null: they are kept
 * @throws Failure 'not found' for a class that nobody is in, 'wrong input' for a day that is over
 */
export async function classLeaves(
  database: Database,
  { className, deleteAfter }: Readonly<{ className: string; deleteAfter: string | null }>,
  { now }: Readonly<{ now: Date }>,
): Promise<void> {
  const left = { leftAt: now, deleteAfter: takenOutAfter(deleteAfter, now) }
  await inTransaction(database, async (inner) => {
    const members = await classMembers(inner, className)
    for (const { id } of members) {
      await changePerson(inner, id, left)
      await endSessions(inner, { personId: id })
    }
  })
}

/** The printers and guests of a class. @throws Failure 'not found' for one that nobody is in */
export async function classMembers(
  database: Database,
  className: string,
): Promise<Awaited<ReturnType<typeof people>>> {
  const members = (await people(database)).filter(
    ({ className: group, role }) => group === className && (role === 'printer' || role === 'guest'),
  )
  if (members.length > 0) return members
  const message = `Nobody is in a class ${className}: choose one that is here.`
  throw new Failure('not found', message, { field: 'className' })
}
