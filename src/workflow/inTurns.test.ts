import { expect, test } from 'vitest'
import { type Hand, inTurns } from './inTurns.ts'

async function* upTo(count: number): AsyncGenerator<number> {
  for (let task = 0; task < count; task += 1) yield task
}

const later = (turns: number): Promise<void> =>
  turns === 0 ? Promise.resolve() : Promise.resolve().then(() => later(turns - 1))

async function all<Result>(results: AsyncIterable<Result>): Promise<readonly Result[]> {
  const list: Result[] = []
  for await (const result of results) list.push(result)
  return list
}

test('results come in the order of the tasks, whoever is quicker', async () => {
  const did: string[] = []
  const hand =
    (name: string, turns: (task: number) => number): Hand<number, number> =>
    async (task) => {
      await later(turns(task))
      did.push(`${name}${task}`)
      return task * task
    }
  const hands = [hand('a', (task) => (task === 0 ? 400 : 3)), hand('b', () => 5)]
  expect(await all(inTurns(upTo(9), hands))).toEqual([0, 1, 4, 9, 16, 25, 36, 49, 64])
  expect(did[0]).toBe('b1')
  expect(did.filter((name) => name.startsWith('a')).length).toBeGreaterThan(1)
})

test('a hand never has two things to do, and no more wait than there is room for', async () => {
  let [underWay, most, begun] = [0, 0, 0]
  const hand: Hand<number, number> = async (task) => {
    underWay += 1
    begun += 1
    most = Math.max(most, underWay)
    await later(3)
    underWay -= 1
    return task
  }
  let taken = 0
  for await (const _ of inTurns(upTo(20), [hand])) {
    taken += 1
    expect(begun - taken).toBeLessThanOrEqual(3)
  }
  expect([most, taken]).toEqual([1, 20])
})

test('what one hand throws is thrown in its turn, and what others throw later is let go', async () => {
  const hand: Hand<number, number> = async (task) => {
    await later(10 - task)
    if (task > 1) throw new Error(`task ${task}`)
    return task
  }
  const seen: number[] = []
  const run = async (): Promise<void> => {
    for await (const result of inTurns(upTo(6), [hand, hand])) seen.push(result)
  }
  await expect(run()).rejects.toThrow('task 2')
  expect(seen).toEqual([0, 1])
})
