import { expect, test } from 'vitest'
import { Failure } from '../../../src/core/failure.ts'
import { inTransaction } from '../../../src/store/database/database.ts'
import { addInk, inks } from '../../../src/store/inks.ts'
import { addPerson, people } from '../../../src/store/people.ts'
import { minute } from '../sampleRoom.ts'
import type { Bench } from './bench.ts'

const someone = { name: 'Demo Adair', role: 'printer' } as const

/** All or nothing, and nobody waits for ever. */
export function transactionSuite({ shop }: Bench): void {
  test('what fails in the middle leaves nothing', async () => {
    const { database } = shop()
    const failed = inTransaction(database, async (inner) => {
      await addPerson(inner, someone, { at: minute(1) })
      throw new Failure('conflict', 'Not today.')
    })
    await expect(failed).rejects.toThrow('Not today.')
    expect(await people(database)).toEqual([])
  })

  test('a broken constraint undoes what went before it, and the next question is answered', async () => {
    const { database } = shop()
    const ink = { name: 'demo red', labL: 50, labA: 60, labB: 40, opacity: 0.5, status: 'measured' }
    const failed = inTransaction(database, async (inner) => {
      await addPerson(inner, someone, { at: minute(1) })
      await addInk(inner, { ...ink, labL: 101 } as never, { at: minute(1) })
    })
    await expect(failed).rejects.toThrow(/ink\.ink_lab_l_check/)
    await expect(failed).rejects.toThrow(RangeError)
    expect(await people(database)).toEqual([])
    await addInk(database, ink as never, { at: minute(2) })
    expect(await inks(database)).toHaveLength(1)
  })

  test('one inside another is part of it', async () => {
    const { database } = shop()
    const failed = inTransaction(database, async (inner) => {
      await inTransaction(inner, (same) => addPerson(same, someone, { at: minute(1) }))
      throw new Error('after all, no')
    })
    await expect(failed).rejects.toThrow('after all, no')
    expect(await people(database)).toEqual([])
  })

  test('the outer handle inside is refused at once, not waited for', async () => {
    const { database } = shop()
    const mixed = inTransaction(database, async (inner) => {
      await addPerson(inner, someone, { at: minute(1) })
      await people(database)
    })
    await expect(mixed).rejects.toThrow('only its own handle may be used')
    expect(await people(database)).toEqual([])
  })

  test('many at once come out as if one after another', async () => {
    const { database } = shop()
    await Promise.all(
      Array.from({ length: 20 }, (_, number) =>
        inTransaction(database, async (inner) => {
          await addPerson(inner, { ...someone, name: `Demo ${number}` }, { at: minute(number) })
          if (number % 5 === 0) throw new Error('out')
        }).catch(() => undefined),
      ),
    )
    const names = (await people(database)).map(({ name }) => name)
    const expected = Array.from({ length: 20 }, (_, number) => number).filter(
      (one) => one % 5 !== 0,
    )
    expect(names).toEqual(expected.map((number) => `Demo ${number}`))
  })
}
