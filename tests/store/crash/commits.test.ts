import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { emptyShopIn, scratch } from '../scratch.ts'
import { acknowledgedIn, chance, live, type Work } from './children.ts'

const KILLS = 20
const folder = scratch()

/**
 * Twenty processes on one shop, each killed in the middle of its work; each first holds the shop
 * to all that was acknowledged before it, and one more at the end.
 */
describe.each<[Work, Readonly<{ seed: number; longestMs: number }>]>([
  ['rows', { seed: 20, longestMs: 400 }],
  ['blobs', { seed: 21, longestMs: 500 }],
])('%s', (work, { seed, longestMs }) => {
  test(`kill -9, ${KILLS} times: all that was acknowledged is there, and nothing by halves`, async () => {
    const shop = await emptyShopIn(join(folder, work))
    const random = chance(seed)
    const acknowledged: string[] = []
    for (let kills = 0; kills < KILLS; kills++) {
      const kill = { from: 'held', afterMs: random() * longestMs }
      const { said, killed, stderr } = await live(shop, { work, acknowledged, kill })
      expect({ killed, stderr, broken: said.filter((line) => line.startsWith('BROKEN')) }).toEqual({
        killed: true,
        stderr: '',
        broken: [],
      })
      expect(said).toContain(`held ${acknowledged.length}`)
      acknowledged.push(...acknowledgedIn(said))
    }
    const last = await live(shop, { work, acknowledged, kill: { from: 'held', afterMs: 0 } })
    expect(last.said).toContain(`held ${acknowledged.length}`)
    expect(acknowledged.length).toBeGreaterThan(KILLS)
    console.log(`${work}: ${KILLS} kills, ${acknowledged.length} acknowledged, 0 lost`)
  }, 300_000)
})
