import { expect, test } from 'vitest'
import { changePerson, forgetPeople, personOf } from '../../../src/store/people.ts'
import {
  addScreenEvent,
  eventsOfPerson,
  isTold,
  screenEvents,
  stateBeforeLost,
  stencils,
} from '../../../src/store/screenEvents.ts'
import {
  beginSession,
  credentials,
  endSessions,
  keepCredential,
  personWithCode,
  sessionPerson,
} from '../../../src/store/sessions.ts'
import { giveSignOff, signOffs, withdrawSignOff } from '../../../src/store/signOffs.ts'
import { minute } from '../sampleRoom.ts'
import { fillWithSample } from '../sampleShop.ts'
import type { Bench } from './bench.ts'

/** What happens to screens, and who may come in. */
export function registerSuite({ shop }: Bench): void {
  test('what is told of a screen twice changes it once, and a lost one remembers what it was', async () => {
    const { database } = shop()
    const { screen, person, film } = await fillWithSample(shop())
    const of = { screenId: screen.id, kind: 'state', personId: person.id } as const
    const told = (state: 'exposed' | 'lost', sentKey: string, at: number) =>
      addScreenEvent(
        database,
        { event: { ...of, state, sentKey, happenedAt: minute(at) }, changes: { state } },
        { at: minute(at) },
      )
    await told('exposed', 'screen-key-1', 4)
    expect(await told('lost', 'screen-key-2', 5)).toMatchObject({ state: 'lost' })
    expect(await told('exposed', 'screen-key-1', 6)).toMatchObject({ state: 'lost' })
    expect(await screenEvents(database, { screenId: screen.id, limit: 9 })).toMatchObject([
      { state: 'lost' },
      { state: 'exposed', personId: person.id },
    ])
    expect(await stateBeforeLost(database, { screenId: screen.id })).toBe('exposed')
    const theirs = await eventsOfPerson(database, { personId: person.id, limit: 9 })
    expect(theirs.map(({ tag, state }) => [tag, state])).toEqual([
      [screen.tag, 'exposed'],
      [screen.tag, 'lost'],
    ])
    expect(await isTold(database, 'screen-key-2')).toBe(true)
    expect(await isTold(database, 'screen-key-3')).toBe(false)
    expect(await stencils(database)).toMatchObject([{ screenId: screen.id, filmId: film.id }])
  })

  test('a session ends by its hour, its token, or because somebody left', async () => {
    const { database } = shop()
    const { person } = await fillWithSample(shop())
    const [one, two] = ['1', '2'].map((sign) => sign.repeat(64))
    const secret = { personId: person.id, codeHash: 'c'.repeat(64) }
    await keepCredential(database, secret, { at: minute(1) })
    await keepCredential(database, { personId: person.id, passwordHash: 'x' }, { at: minute(2) })
    expect(await credentials(database)).toMatchObject([{ ...secret, passwordHash: 'x' }])
    expect(await personWithCode(database, secret)).toMatchObject({ id: person.id })
    const begin = (tokenHash = '') =>
      beginSession(
        database,
        { personId: person.id, tokenHash, endsAt: minute(9) },
        { at: minute(3) },
      )
    const who = async (tokenHash = '', at = 5) =>
      (await sessionPerson(database, { tokenHash }, { at: minute(at) }))?.person.id ?? null
    await begin(one)
    await begin(two)
    expect([await who(one), await who(one, 10), await who('3'.repeat(64))]).toEqual([
      person.id,
      null,
      null,
    ])
    await endSessions(database, { tokenHash: one ?? '' })
    expect([await who(one), await who(two)]).toEqual([null, person.id])
    await changePerson(database, person.id, { leftAt: minute(6) })
    expect([await who(two), await personWithCode(database, secret)]).toEqual([null, null])
    expect(await credentials(database)).toEqual([])
    await changePerson(database, person.id, { deleteAfter: minute(20) })
    expect(await forgetPeople(database, { at: minute(19) })).toBe(0)
    expect(await forgetPeople(database, { at: minute(21) })).toBe(1)
    expect(await personOf(database, person.id)).toMatchObject({
      name: 'somebody who left',
      className: null,
    })
    expect(await forgetPeople(database, { at: minute(22) })).toBe(0)
  })

  test('a sign-off is kept with its giver, and is gone once it is withdrawn', async () => {
    const { database } = shop()
    const { person, unit } = await fillWithSample(shop())
    const shown = { personId: person.id, machine: 'light', unitId: unit.id } as const
    const given = { ...shown, givenById: person.id, givenAt: minute(2), expiresAt: minute(90) }
    const { id } = await giveSignOff(database, given, { at: minute(2) })
    expect(await signOffs(database, { personId: person.id })).toMatchObject([given])
    await withdrawSignOff(database, { id, personId: person.id }, { at: minute(3) })
    expect(await signOffs(database)).toEqual([])
    const nobody = { id: '0'.repeat(26), personId: person.id }
    await expect(withdrawSignOff(database, nobody, { at: minute(3) })).rejects.toThrow('no such')
  })
}
