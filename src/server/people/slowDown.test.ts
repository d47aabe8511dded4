import { expect, test } from 'vitest'
import { type SlowDown, slowDown } from './slowDown.ts'

type Clock = { sec: number }

const doorOf = (tries: SlowDown, clock: Clock) => {
  const now = (): Date => new Date(clock.sec * 1000)
  return {
    wrong: (whose: string) => tries.tried(whose, async () => null, { now }),
    right: (whose: string) => tries.tried(whose, async () => whose, { now }),
  }
}

test('after some wrong tries one waits, twice as long each time, up to the longest', async () => {
  const clock = { sec: 0 }
  const { wrong, right } = doorOf(slowDown({ longestSec: 6 }), clock)
  for (let count = 0; count < 5; count++) expect(await wrong('Lea')).toBeNull()
  clock.sec = 0.2
  await expect(right('Lea')).rejects.toThrow('wait 1 second,')
  expect(await right('Bo')).toBe('Bo')
  clock.sec = 1.1
  expect(await wrong('Lea')).toBeNull()
  clock.sec = 1.2
  await expect(wrong('Lea')).rejects.toThrow('wait 2 seconds')
  for (let count = 0; count < 9; count++) {
    clock.sec += 6.1
    expect(await wrong('Lea')).toBeNull()
  }
  await expect(wrong('Lea')).rejects.toThrow('wait 6 seconds')
  clock.sec += 20 * 60
  expect(await right('Lea')).toBe('Lea')
  expect(await wrong('Lea')).toBeNull()
})

test('many tries sent at once go one by one: after the free ones none is looked at', async () => {
  let looked = 0
  const { tried } = slowDown({ longestSec: 6 })
  const attempt = async (): Promise<null> => {
    looked += 1
    await new Promise((resolve) => setTimeout(resolve, 1))
    return null
  }
  const sent = await Promise.allSettled(
    Array.from({ length: 60 }, () => tried('Lea', attempt, { now: () => new Date(7000) })),
  )
  expect(looked).toBe(5)
  expect(sent.filter(({ status }) => status === 'rejected')).toHaveLength(55)
  const crowd = await Promise.allSettled(
    Array.from({ length: 120 }, () => tried('Bo', attempt, { now: () => new Date(7000) })),
  )
  expect(crowd.filter(({ status }) => status === 'fulfilled')).toHaveLength(5)
  expect(await tried('Cy', async () => 'in', { now: () => new Date(7000) })).toBe('in')
})

test('a flood of invented names does not wash away the tries of a real one', async () => {
  const clock = { sec: 3 }
  const { wrong } = doorOf(slowDown({ longestSec: 300 }), clock)
  for (let count = 0; count < 6; count++) {
    await wrong('Lea')
    clock.sec += 2
  }
  await wrong('Lea') // the seventh: a wait of four seconds
  for (let name = 0; name < 600; name++) await wrong(`nobody ${name}`)
  await expect(wrong('Lea')).rejects.toThrow('Too many tries')
})

test('a door that breaks counts nothing, and lets the next one in', async () => {
  const { tried } = slowDown({ longestSec: 6 })
  const now = (): Date => new Date(9000)
  const broken = (): Promise<null> => Promise.reject(new Error('no database'))
  for (let count = 0; count < 8; count++) {
    await expect(tried('Lea', broken, { now })).rejects.toThrow('no database')
  }
  expect(await tried('Lea', async () => 'in', { now })).toBe('in')
})
