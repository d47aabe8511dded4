import { may } from '../../api/roles.ts'
import { Failure } from '../../core/failure.ts'
import {
  type MachineAct,
  mayUse,
  TAKES,
  USUALLY_SHOWN_FIRST,
} from '../../core/register/machines.ts'
import type { Database } from '../../store/database/database.ts'
import { people } from '../../store/people.ts'
import { theShop } from '../../store/shop.ts'
import { machineOf, signOffs } from '../../store/signOffs.ts'
import { MACHINE_NAMES } from './machineNames.ts'
import type { Who } from './peopleKeeper.ts'

type Meant = Readonly<{
  act: MachineAct
  /** Whose lamp it is; null: no lamp is lit. */
  unit?: Readonly<{ id: string; name: string }> | null
  now: Date
}>

/**
 * Somebody signed in was shown all that an act takes, as far as the shop asks for it, and it still
 * holds. Technicians and leads show it to others; in an open shop nobody is asked.
 *
 * @throws Failure 'conflict' in a sentence that says who can give the sign-off
 */
export async function expectShown(database: Database, who: Who, meant: Meant): Promise<void> {
  const says = await notShown(database, who, meant)
  if (says !== null) throw new Failure('conflict', says)
}

/** What somebody lacks for an act and who can give it, in a sentence; null: they may. */
export async function notShown(
  database: Database,
  { isOpen, role, person }: Who,
  { act, unit = null, now }: Meant,
): Promise<string | null> {
  if (isOpen || person === null || may(role, 'technician')) return null
  const asked = (await theShop(database)).shownFirst ?? USUALLY_SHOWN_FIRST
  const shown = (await signOffs(database, { personId: person.id })).map((signOff) => ({
    machine: signOff.machine,
    unitId: machineOf(signOff),
    givenMs: signOff.givenAt.getTime(),
    expiresMs: signOff.expiresAt?.getTime() ?? null,
  }))
  const never: string[] = []
  const over: string[] = []
  for (const machine of TAKES[act].filter((each) => asked.includes(each))) {
    const says = mayUse(shown, {
      machine,
      unitId: machine === 'light' ? (unit?.id ?? null) : null,
      nowMs: now.getTime(),
    })
    const name = machine === 'light' ? (unit?.name ?? MACHINE_NAMES.light) : MACHINE_NAMES[machine]
    if (says.verdict === 'never shown') never.push(name)
    if (says.verdict === 'run out') {
      over.push(`${name} ran out on ${wholeDay(says.expiredMs)}`)
    }
  }
  if (never.length + over.length === 0) return null
  const givers = (await people(database))
    .filter((each) => may(each.role, 'technician'))
    .map(({ name }) => name)
  const why = [
    ...(over.length === 0 ? [] : [`Your sign-off for ${listed(over, 'and')}`]),
    ...(never.length === 0 ? [] : [`Nobody has shown you ${listed(never, 'and')} yet`]),
  ].join('. ')
  const whom = givers.length === 0 ? 'a technician' : listed(givers, 'or')
  return `${why}: ask ${whom} to show you and sign you off.`
}

/** By the calendar on the shop's wall. */
function wholeDay(ms: number): string {
  return new Date(ms).toLocaleDateString('en-GB', { dateStyle: 'long' })
}

function listed(names: readonly string[], word: 'and' | 'or'): string {
  const last = names.at(-1) ?? ''
  return names.length < 2 ? last : `${names.slice(0, -1).join(', ')} ${word} ${last}`
}
