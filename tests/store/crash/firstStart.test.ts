import { join } from 'node:path'
import { expect, test } from 'vitest'
import { scratch } from '../scratch.ts'
import { acknowledgedIn, chance, live } from './children.ts'

const KILLS = 20
/** A first start is over within this on an idle computer; the moments are spread over it. */
const SPAN_MS = 4500
const AT_ONCE = 2
const folder = scratch()

test(`kill -9 during the first start, ${KILLS} times: the next start makes or opens the shop`, async () => {
  const random = chance(22)
  const moments = Array.from({ length: KILLS }, () => random() * SPAN_MS)
  const ends: string[] = []
  const one = async (number: number): Promise<void> => {
    const shop = join(folder, `first ${number}`)
    const kill = { from: 'begun', afterMs: moments[number] ?? 0 }
    const first = await live(shop, { work: 'first', acknowledged: [], kill })
    const acknowledged = acknowledgedIn(first.said)
    ends.push(first.said.at(-1) ?? 'nothing')
    const second = await live(shop, { work: 'first', acknowledged, kill: null })
    expect([number, second.stderr, second.said.slice(-4)]).toEqual([
      number,
      '',
      ['open', `held ${acknowledged.length}`, 'row 1', 'closed'],
    ])
  }
  for (let number = 0; number < KILLS; number += AT_ONCE) {
    await Promise.all(Array.from({ length: AT_ONCE }, (_, at) => one(number + at)))
  }
  const counted = ends.reduce<Record<string, number>>(
    (counts, end) => ({ ...counts, [end]: (counts[end] ?? 0) + 1 }),
    {},
  )
  console.log(`first start: ${KILLS} kills, after`, counted)
  expect(counted['step making the database']).toBeGreaterThan(0)
}, 600_000)
