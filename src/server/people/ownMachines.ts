import { newThing } from '../../api/things.ts'
import type { Machine } from '../../core/register/machines.ts'
import type { Database } from '../../store/database/database.ts'
import { things } from '../../store/things.ts'
import { units } from '../../store/units.ts'

/** One machine of the shop, and of which sort it is. */
export type OwnMachine = Readonly<{
  id: string
  name: string
  of: Machine
  /** Where it is written down. */
  kind: 'unit' | 'thing'
}>

const JOBS = {
  coating: 'coating',
  drying: 'drying',
  'drying again': 'drying',
  light: null, // exposure units have records of their own
  water: 'water',
} as const

/** All that somebody can be shown one by one: exposure units, the day's stations, other machines. */
export async function ownMachines(database: Database): Promise<readonly OwnMachine[]> {
  const lit = (await units(database)).map(
    ({ unit: { id, name } }): OwnMachine => ({ id, name, of: 'light', kind: 'unit' }),
  )
  const others = (await things(database)).flatMap(({ id, kind, name, facts }): OwnMachine[] => {
    if (kind !== 'machine' && kind !== 'station') return []
    const told = newThing.parse({ kind, name, facts })
    const of =
      told.kind === 'machine'
        ? told.facts.of
        : told.kind === 'station'
          ? JOBS[told.facts.job]
          : null
    return of === null ? [] : [{ id, name, of, kind: 'thing' }]
  })
  return [...lit, ...others]
}

/** Those of which there are several of a sort: one of them can be meant alone. */
export function severalOf(all: readonly OwnMachine[]): readonly OwnMachine[] {
  return all.filter(({ of }) => all.filter((each) => each.of === of).length > 1)
}
