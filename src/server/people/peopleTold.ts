import type { People, PersonTold } from '../../api/people.ts'
import { USUALLY_SHOWN_FIRST } from '../../core/register/machines.ts'
import type { Database } from '../../store/database/database.ts'
import { allPeople, type Person } from '../../store/people.ts'
import { type Screen, screens } from '../../store/screens.ts'
import { type Credential, credentials } from '../../store/sessions.ts'
import { theShop } from '../../store/shop.ts'
import { machineOf, type SignOff, signOffs } from '../../store/signOffs.ts'
import type { Told } from '../http/route.ts'
import { dayText } from '../shop/days.ts'
import { type OwnMachine, ownMachines, severalOf } from './ownMachines.ts'
import { isOpenShop } from './peopleKeeper.ts'

type Things = Readonly<{
  people: readonly Person[]
  credentials: readonly Credential[]
  signOffs: readonly SignOff[]
  screens: readonly Screen[]
  machines: readonly OwnMachine[]
  now: Date
}>

/** Everybody of the shop, with what each was shown. */
export async function peopleTold(
  database: Database,
  { now }: Readonly<{ now: Date }>,
): Promise<Told<People>> {
  const things: Things = {
    people: await allPeople(database),
    credentials: await credentials(database),
    signOffs: await signOffs(database),
    screens: await screens(database),
    machines: await ownMachines(database),
    now,
  }
  const shop = await theShop(database)
  const here = things.people.filter(({ leftAt }) => leftAt === null)
  return {
    kind: 'people',
    demo: shop.kind === 'demo',
    isOpen: await isOpenShop(database),
    people: here.map((person) => personTold(person, things)),
    gone: things.people.flatMap(({ id, name, leftAt, deleteAfter, forgottenAt }) =>
      leftAt === null || forgottenAt !== null
        ? []
        : [
            {
              id,
              name,
              leftOn: dayText(leftAt),
              deleteAfter: deleteAfter === null ? null : dayText(deleteAfter),
            },
          ],
    ),
    units: severalOf(things.machines).map(({ id, name, of }) => ({ id, name, of })),
    shownFirst: shop.shownFirst ?? USUALLY_SHOWN_FIRST,
  }
}

function personTold({ id, name, role, className }: Person, things: Things): Told<PersonTold> {
  const secret = things.credentials.find(({ personId }) => personId === id)
  return {
    id,
    name,
    role,
    className,
    hasPassword: (secret?.passwordHash ?? null) !== null,
    hasCard: (secret?.codeHash ?? null) !== null,
    signOffs: things.signOffs
      .filter(({ personId }) => personId === id)
      .map((signOff) => signOffTold(signOff, things)),
    screens: things.screens.filter(({ ownerId }) => ownerId === id).length,
  }
}

export function signOffTold(
  signOff: SignOff,
  { people, machines, now }: Pick<Things, 'people' | 'machines' | 'now'>,
): Told<PersonTold>['signOffs'][number] {
  const { id, machine, givenById, givenAt, expiresAt } = signOff
  const own = machines.find((each) => each.id === machineOf(signOff))
  return {
    id,
    machine,
    unit: own === undefined ? null : { id: own.id, name: own.name },
    givenBy: people.find((each) => each.id === givenById)?.name ?? null,
    givenOn: dayText(givenAt),
    expiresOn: expiresAt === null ? null : dayText(expiresAt),
    isOver: expiresAt !== null && expiresAt <= now,
  }
}
