import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { THOROUGH } from '../../thorough.testing.ts'
import { emptyShopIn, scratch } from '../scratch.ts'
import { acknowledgedIn, chance, type Life, live, type Work } from './children.ts'
import { KILLS } from './kills.testing.ts'

/** In a first start a folder is held to its promises after so many, and then another one is begun. */
const KILLS_A_FOLDER = 5
const folder = scratch()

describe.concurrent(`kill -9, ${KILLS} times`, () => {
  /** Each process first holds the shop to all that was acknowledged before it, and one more at the end. */
  test.each<[Work, Readonly<{ seed: number; longestMs: number }>]>([
    ['rows', { seed: 20, longestMs: 400 }],
    ['blobs', { seed: 21, longestMs: 500 }],
  ])(
    'while it saves %s: all that was acknowledged is there, and nothing by halves',
    async (work, { seed, longestMs }) => {
      const shop = await emptyShopIn(join(folder, work))
      const random = chance(seed)
      const acknowledged: string[] = []
      for (let kills = 0; kills < KILLS; kills++) {
        const kill = { from: 'held', afterMs: random() * longestMs }
        const { said, killed, stderr } = await live(shop, { work, acknowledged, kill })
        expect({
          killed,
          stderr,
          broken: said.filter((line) => line.startsWith('BROKEN')),
        }).toEqual({
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
    },
    600_000,
  )

  // a database is made anew each time; in npm test the server's kills hold one first start
  test.runIf(THOROUGH)(
    'while it starts for the first time: the next start makes or opens the shop',
    async () => {
      const began = performance.now()
      const undisturbed = await first(join(folder, 'undisturbed'), { acknowledged: [], kill: null })
      let spanMs = performance.now() - began
      expect(undisturbed.said.at(-1)).toBe('closed')

      const random = chance(22)
      const ends: Record<string, number> = {}
      let kills = 0
      for (let number = 0; kills < KILLS; number++) {
        const shop = join(folder, `shop ${number}`)
        const acknowledged: string[] = []
        for (let here = 0; here < KILLS_A_FOLDER && kills < KILLS; here++) {
          if (acknowledged.length > 0) break
          // the moments lie in equal parts of the whole, from the first to the last of it
          const afterMs = ((((kills * 7) % KILLS) + random()) / KILLS) * spanMs
          const life = await first(shop, { acknowledged, kill: { from: 'begun', afterMs } })
          expect([life.stderr, life.said.filter((line) => line.startsWith('BROKEN'))]).toEqual([
            '',
            [],
          ])
          acknowledged.push(...acknowledgedIn(life.said))
          if (!life.killed) {
            spanMs *= 0.85 // it was over before: the rest will be aimed earlier
            continue
          }
          const end = life.said.at(-1) ?? 'nothing'
          ends[end] = (ends[end] ?? 0) + 1
          kills++
        }
        const whole = await first(shop, { acknowledged, kill: null })
        expect([shop, whole.stderr, whole.said.slice(-4)]).toEqual([
          shop,
          '',
          ['open', `held ${acknowledged.length}`, 'row 1', 'closed'],
        ])
      }
      console.log(
        `first start of ${spanMs.toFixed(0)} ms: ${kills} kills, the last words were`,
        ends,
      )
      expect(ends['step making the database']).toBeGreaterThan(0)
    },
    600_000,
  )
})

const first = (
  shop: string,
  rest: Pick<Parameters<typeof live>[1], 'acknowledged' | 'kill'>,
): Promise<Life> => live(shop, { work: 'first', ...rest })
