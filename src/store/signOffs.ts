import type { Machine } from '../core/register/machines.ts'
import type { Database } from './database/database.ts'
import { type At, found, type New } from './database/record.ts'
import { sortableId } from './ids.ts'

/** Somebody was shown a machine and may use it, or may work alone. */
export type SignOff = Readonly<{
  id: string
  personId: string
  machine: Machine
  /** Of that exposure unit alone, or of that machine of the room; both null: of all there are. */
  unitId: string | null
  thingId: string | null
  givenById: string | null
  givenAt: Date
  /** Null: for good. */
  expiresAt: Date | null
  withdrawnAt: Date | null
  createdAt: Date
}>

/** The one machine that a sign-off is for; null: all of its sort. */
export function machineOf({ unitId, thingId }: Pick<SignOff, 'unitId' | 'thingId'>): string | null {
  return unitId ?? thingId
}

/** @throws Failure 'not found' for a person or unit that the shop does not have */
export async function giveSignOff(
  database: Database,
  signOff: New<SignOff, 'withdrawnAt'>,
  { at }: At,
): Promise<SignOff> {
  return database
    .insertInto('signOff')
    .values({ ...signOff, id: sortableId(at), createdAt: at })
    .returningAll()
    .executeTakeFirstOrThrow()
}

/** Kept, and no longer good. @throws Failure 'not found' */
export async function withdrawSignOff(
  database: Database,
  { id, personId }: Readonly<{ id: string; personId: string }>,
  { at }: At,
): Promise<SignOff> {
  const row = await database
    .updateTable('signOff')
    .set({ withdrawnAt: at })
    .where('id', '=', id)
    .where('personId', '=', personId)
    .returningAll()
    .executeTakeFirst()
  return found(row, 'sign-off')
}

/** All that were given and not withdrawn, oldest first, by machine at one moment; of one person when named. */
export async function signOffs(
  database: Database,
  { personId }: Readonly<{ personId?: string }> = {},
): Promise<readonly SignOff[]> {
  let query = database
    .selectFrom('signOff')
    .selectAll()
    .where('withdrawnAt', 'is', null)
    .orderBy('givenAt')
    .orderBy('machine')
    .orderBy('id')
  if (personId !== undefined) query = query.where('personId', '=', personId)
  return query.execute()
}
