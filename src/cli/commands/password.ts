import { randomInt } from 'node:crypto'
import { PATHS, personActsPath } from '../../api/paths.ts'
import { people } from '../../api/people.ts'
import { Failure } from '../../core/failure.ts'
import { plainName } from '../../core/units/plainName.ts'
import { didYouMean } from '../../workflow/nearest.ts'
import type { Place } from '../arguments.ts'
import type { Command } from '../command.ts'
import { shortened, word } from '../reads.ts'
import { SHOP, withShop } from '../shopOption.ts'

const NAME: Place<string> = {
  name: 'NAME',
  about: 'a lead or technician as written on Who is who?, like "Lea Ward"',
  needed: true,
  reads: word({ what: 'person', shown: 'NAME' }),
}

/** Letters and digits of which none is taken for another; 80 random bits. */
const SIGNS = '0123456789abcdefghjkmnpqrstvwxyz'
const GROUPS = 4
const GROUP_SIGNS = 4

export const password: Command = {
  name: 'password',
  summary: 'gives a lead or technician a new password, for whoever lost the last one',
  places: [NAME],
  options: [SHOP],
  notes: [
    'The old password ends, and whoever was signed in with it is signed out. The new one is shown this once: change it on the page Who is who?',
    'It works on the shop’s own computer alone, for whoever may read the data folder.',
  ],
  example: {
    line: 'password "Lea Ward" --shop shop',
    prints: 'Lea Ward signs in with k3q9-h7k2-w0mz-4txn from now on.',
  },
  run: async (given, io) => {
    const wanted = plainName(given.needs(NAME))
    const word = newPassword()
    const name = await withShop(given.of(SHOP), io, async (ask) => {
      const told = people.parse(await (await ask(PATHS.people)).json())
      const keep = told.people.filter(({ role }) => role === 'lead' || role === 'technician')
      const person = keep.find((each) => plainName(each.name) === wanted)
      if (person === undefined) throw nobodyCalled(given.needs(NAME), keep)
      await ask(personActsPath(person.id), { kind: 'password', password: word })
      return person.name
    })
    return {
      record: { kind: 'password', name, password: word },
      text: `${name} signs in with ${word} from now on.`,
    }
  },
}

function newPassword(): string {
  const signs = (count: number): string =>
    Array.from({ length: count }, () => SIGNS.charAt(randomInt(SIGNS.length))).join('')
  return Array.from({ length: GROUPS }, () => signs(GROUP_SIGNS)).join('-')
}

function nobodyCalled(written: string, keep: readonly Readonly<{ name: string }>[]): Failure {
  const names = keep.map(({ name }) => name)
  const known = names.length === 0 ? ' The shop has none yet.' : ` There are: ${names.join(', ')}.`
  const advice = didYouMean(written, names, '') || known
  const message = `No lead or technician of this shop is called ${shortened(written)}.${advice}`
  return new Failure('wrong input', message, { field: NAME.name })
}
