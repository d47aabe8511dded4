import { evidencePath, PATHS } from '../../api/paths.ts'
import {
  cards,
  classSignOff,
  classTold,
  endOfTerm,
  evidence,
  type Me,
  mayI,
  mayQuestion,
  me as meAnswer,
  newCards,
  newClass,
  newPerson,
  newShownFirst,
  people,
  personAct,
  signIn,
} from '../../api/people.ts'
import { addPerson, personOf } from '../../store/people.ts'
import { keepShownFirst } from '../../store/shop.ts'
import { units } from '../../store/units.ts'
import type { ShopDoor } from '../door.ts'
import { type Route, route, type Told } from '../http/route.ts'
import { actOnPerson, refuseAbove } from './actOnPerson.ts'
import { cardsMade } from './cardsMade.ts'
import { classIn } from './classIn.ts'
import { classLeaves } from './classLeaves.ts'
import { classShown } from './classShown.ts'
import { evidenceTold } from './evidenceTold.ts'
import { notShown } from './expectShown.ts'
import type { PeopleKeeper, Who } from './peopleKeeper.ts'
import { peopleTold } from './peopleTold.ts'

/** Who may come in, who is who, and what each was shown. */
export function peopleRoutes(door: ShopDoor, keeper: PeopleKeeper): readonly Route[] {
  const told = () => {
    const { store, now } = door.shop()
    return peopleTold(store.database, { now: now() })
  }
  return [
    route({
      method: 'get',
      path: PATHS.me,
      summary: 'who asks, and whether anybody needs to sign in here',
      answer: meAnswer,
      run: async ({ request }) => meTold(await keeper.whoIs(door.shop(), request)),
    }),
    route({
      method: 'post',
      path: PATHS.signIn,
      summary: 'signs in by a card’s code, or by name and password; the answer brings a cookie',
      body: signIn,
      answer: meAnswer,
      run: async ({ body, request, withHeader }) => {
        const service = door.shop()
        const { person, cookie } = await keeper.signIn(service, body)
        withHeader('set-cookie', cookie)
        const { isOpen } = await keeper.whoIs(service, request)
        return meTold({ person, role: isOpen ? 'lead' : person.role, isOpen })
      },
    }),
    route({
      method: 'post',
      path: PATHS.signOut,
      summary: 'signs out on this device',
      answer: null,
      run: async ({ request, withHeader }) => {
        withHeader('set-cookie', await keeper.signOut(door.shop(), request))
        return null
      },
    }),
    route({
      method: 'get',
      path: PATHS.mayI,
      summary:
        'whether who asks was shown all that an act takes, before anything of it is begun; if not, who can show it',
      query: mayQuestion,
      answer: mayI,
      run: async ({ query: { act, unit: named }, request }) => {
        const { store, now } = door.shop()
        const lit = (await units(store.database)).map(({ unit: { id, name } }) => ({ id, name }))
        const unit =
          act === 'expose'
            ? (lit.find(({ id, name }) => id === named || name === named) ?? lit[0] ?? null)
            : null
        const who = await keeper.whoIs(door.shop(), request)
        const says = await notShown(store.database, who, { act, unit, now: now() })
        return { kind: 'may' as const, says }
      },
    }),
    route({
      method: 'get',
      path: PATHS.people,
      summary: 'everybody of the shop: role, class, what each was shown and until when',
      answer: people,
      run: told,
    }),
    route({
      method: 'post',
      path: PATHS.people,
      summary: 'somebody comes into the shop',
      body: newPerson,
      answer: people,
      status: 201,
      run: async ({ body: { name, role, className }, request }) => {
        const { store, now } = door.shop()
        refuseAbove(await keeper.whoIs(door.shop(), request), role)
        const person = { name, role, className: className ?? null }
        await addPerson(store.database, person, { at: now() })
        return told()
      },
    }),
    route({
      method: 'post',
      path: `${PATHS.people}/{person}/acts`,
      summary:
        'something is settled about somebody: role, password, a sign-off given or withdrawn, leaving and coming back',
      body: personAct,
      answer: people,
      run: async ({ body, place, request }) => {
        const { store, now } = door.shop()
        const person = await personOf(store.database, place('person'))
        const who = await keeper.whoIs(door.shop(), request)
        await actOnPerson(store.database, person, { act: body, who, now: now() })
        keeper.forget()
        return told()
      },
    }),
    route({
      method: 'get',
      path: evidencePath('PERSON', 'json').replace('PERSON', '{person}'),
      summary:
        'all that the shop knows of somebody’s work: sign-offs, tickets, films, tests, screens',
      answer: evidence,
      run: ({ place }) => {
        const { store, now } = door.shop()
        return evidenceTold(store.database, { personId: place('person'), now: now() })
      },
    }),
    route({
      method: 'post',
      path: PATHS.classList,
      summary: 'a class comes in from a table; as a dry run it only says who would',
      body: newClass,
      answer: classTold,
      run: ({ body }) => {
        const { store, now } = door.shop()
        return classIn(store.database, body, { now: now() })
      },
    }),
    route({
      method: 'post',
      path: PATHS.cards,
      summary:
        'makes new cards: a code for each, told this once, and a sheet to print; old ones end',
      body: newCards,
      answer: cards,
      run: async ({ body, request }) => {
        const service = door.shop()
        const who = await keeper.whoIs(service, request)
        const made = await cardsMade(service, { ids: body.people, who, address: request.url })
        keeper.forget()
        return made
      },
    }),
    route({
      method: 'post',
      path: PATHS.classSignOff,
      summary: 'a whole class was shown machines: each of it gets the sign-offs it has not got',
      body: classSignOff,
      answer: people,
      run: async ({ body, request }) => {
        const { store, now } = door.shop()
        const who = await keeper.whoIs(door.shop(), request)
        await classShown(store.database, body, { who, now: now() })
        return told()
      },
    }),
    route({
      method: 'post',
      path: PATHS.shownFirst,
      summary: 'what somebody has to be shown before they use it in this shop',
      body: newShownFirst,
      answer: people,
      run: async ({ body: { machines } }) => {
        await keepShownFirst(door.shop().store.database, machines)
        return told()
      },
    }),
    route({
      method: 'post',
      path: PATHS.endOfTerm,
      summary: 'a class leaves; after a day what is known of its people is taken out',
      body: endOfTerm,
      answer: people,
      run: async ({ body }) => {
        const { store, now } = door.shop()
        await classLeaves(store.database, body, { now: now() })
        keeper.forget()
        return told()
      },
    }),
  ]
}

function meTold({ person, role, isOpen }: Who): Told<Me> {
  return {
    kind: 'me',
    isOpen,
    role,
    person:
      person === null
        ? null
        : { id: person.id, name: person.name, role: person.role, className: person.className },
  }
}
