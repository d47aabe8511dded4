import type { ClassTold, NewClass } from '../../api/people.ts'
import { readClassList } from '../../core/register/classList.ts'
import { plainName } from '../../core/units/plainName.ts'
import { tableRows } from '../../decode/tableRows.ts'
import { type Database, inTransaction } from '../../store/database/database.ts'
import { addPerson, people } from '../../store/people.ts'
import type { Told } from '../http/route.ts'

/**
 * Takes in a class from a table. Lines that are wrong are named; the others come in. Whoever is here
 * already, by name and class, is left as they are.
 *
 * @throws Failure 'unreadable file' for what is no table
 */
export async function classIn(
  database: Database,
  { text, className, dryRun }: NewClass,
  { now }: Readonly<{ now: Date }>,
): Promise<Told<ClassTold>> {
  const { pupils, problems } = readClassList(tableRows(text), { className: className ?? null })
  const here = await people(database)
  const isHere = ({ name, className: group }: (typeof pupils)[number]): boolean =>
    here.some((person) => {
      return plainName(person.name) === plainName(name) && person.className === group
    })
  const fresh = pupils.filter((pupil) => !isHere(pupil))
  if (!dryRun) {
    await inTransaction(database, async (inner) => {
      for (const [index, { name, className: group }] of fresh.entries()) {
        const at = new Date(now.getTime() + index)
        await addPerson(inner, { name, role: 'printer', className: group }, { at })
      }
    })
  }
  return {
    kind: 'class list',
    dryRun,
    fresh,
    known: pupils.filter(isHere).map(({ line, name }) => ({ line, name })),
    problems,
  }
}
