import { setTimeout as sleep } from 'node:timers/promises'
import { expect, test } from 'vitest'
import { turns } from './turns.ts'

test('one after the other, also after one that failed', async () => {
  const { take } = turns()
  const said: string[] = []
  const turn = (name: string, ms: number) =>
    take(async () => {
      said.push(`${name} begins`)
      await sleep(ms)
      said.push(`${name} ends`)
      if (name === 'two') throw new Error('two failed')
    })
  const all = await Promise.allSettled([turn('one', 20), turn('two', 5), turn('three', 1)])
  expect(all.map(({ status }) => status)).toEqual(['fulfilled', 'rejected', 'fulfilled'])
  expect(said).toEqual(
    ['one', 'two', 'three'].flatMap((name) => [`${name} begins`, `${name} ends`]),
  )
})

test('what keeps begins after the turns before it, lets turns go on, and ends', async () => {
  const { take, whileKept, isKept } = turns()
  const seen: boolean[] = []
  const before = take(async () => {
    await sleep(10)
    seen.push(isKept())
  })
  const keeping = whileKept(async () => {
    await take(async () => void seen.push(isKept()))
    throw new Error('even so')
  })
  await before
  await expect(keeping).rejects.toThrow('even so')
  expect([...seen, isKept()]).toEqual([false, true, false])
})
