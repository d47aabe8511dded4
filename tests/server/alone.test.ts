import { afterAll, beforeAll, expect, test } from 'vitest'
import { PATHS } from '../../src/api/paths.ts'
import { readingList } from '../../src/api/tests.ts'
import { type Room, room } from './room.ts'

const PATIENCE_MS = 240_000

let shop: Room
const post = (path: string, body: unknown): Promise<Response> =>
  shop.ask(path, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(body),
  })
const aloneOf = async (query: string): Promise<string | null> =>
  readingList.parse(await (await shop.ask(`${PATHS.readings}${query}`)).json()).alone
const came = async (doseLu: number, grade: string): Promise<void> => {
  const told = { kind: 'outcome', medium: 'soft pencil', doseLu, is: { grade } }
  expect((await post(PATHS.readings, told)).status).toBe(201)
}

beforeAll(async () => {
  shop = await room()
  expect((await post(PATHS.ownShop, {})).status).toBe(201)
}, PATIENCE_MS)
afterAll(() => shop.close())

test(
  'a medium’s screens say by themselves where half hold and half fill, once they have a curve',
  async () => {
    expect(await aloneOf('?medium=soft pencil')).toBeNull()
    // screens in turn: grounds hold from 16, 18 or 20.5 counts on, marks fill from 50, 55 or 61
    for (let at = 0; at < 45; at++) {
      const doseLu = Math.round(100 * 10 * 1.055 ** at) / 100
      const hold = [16, 18, 20.5][at % 3] ?? 0
      const fog = [55, 61, 50][at % 3] ?? 0
      const marks = doseLu > 1.2 * fog ? 'filled' : doseLu > fog ? 'filling' : 'good'
      await came(doseLu, doseLu < hold ? 'washed off' : marks)
    }
    const says = (await aloneOf('?medium=soft pencil')) ?? ''
    const [, hold, fog] =
      /half of the grounds hold at (\d+) \(.*half of the marks begin to fill at (\d+) \(/.exec(
        says,
      ) ?? []
    // about the middle of the doses that were laid down above
    expect(Number(hold)).toBeGreaterThanOrEqual(16)
    expect(Number(hold)).toBeLessThanOrEqual(20)
    expect(Number(fog)).toBeGreaterThanOrEqual(50)
    expect(Number(fog)).toBeLessThanOrEqual(60)
    // of another medium, and of all together, nothing is said
    expect(await aloneOf('?medium=drawing ink')).toBeNull()
    expect(await aloneOf('')).toBeNull()
  },
  PATIENCE_MS,
)
