import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { lightAnswer } from '../../src/api/light.ts'
import { PATHS, strikePath } from '../../src/api/paths.ts'
import { refusal } from '../../src/api/shop.ts'
import {
  accepted,
  type NewReading,
  type ReadingList,
  readingList,
  readingTaken,
  type Tests,
  testDesign,
  tests,
} from '../../src/api/tests.ts'
import { near } from '../../src/core/units/near.testing.ts'
import { type Room, room } from './room.ts'

let own: Room
beforeAll(async () => {
  own = await room()
  const made = await post(PATHS.ownShop, { shopName: 'Shed press', fabric: '90-48' })
  expect(made.status).toBe(201)
})
afterAll(() => own.close())

function post(path: string, body: unknown): Promise<Response> {
  return own.ask(path, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(body),
  })
}
const believed = async (query = ''): Promise<Tests> =>
  tests.parse(await (await own.ask(`${PATHS.tests}${query}`)).json())
const told = async (reading: NewReading) => {
  const response = await post(PATHS.readings, reading)
  const text = await response.text()
  expect([response.status, text]).toEqual([201, expect.anything()])
  return readingTaken.parse(JSON.parse(text))
}
const all = async (query = ''): Promise<ReadingList['readings']> =>
  readingList.parse(await (await own.ask(`${PATHS.readings}${query}`)).json()).readings
const refused = async (response: Response) => {
  const { error } = refusal.parse(await response.json())
  return { status: response.status, ...error }
}

describe('before anything was read', () => {
  test('all doses are first guesses on one scale, and the next test is a strip', async () => {
    const answer = await believed()
    expect(answer.asked).toMatchObject({ fabric: { name: '90-48' }, unit: { name: 'our lamp' } })
    expect(answer.now).toBe(true)
    expect(answer.media.length).toBeGreaterThan(5)
    for (const { word, heard, cloth, dose } of answer.media) {
      expect([word, heard]).toEqual(['a first guess', 'none yet'])
      expect([cloth.lowLu, cloth.highLu]).toEqual([answer.scale.lowLu, answer.scale.highLu])
      expect(dose.low).toBeGreaterThan(answer.scale.lowLu)
      expect(dose.high).toBeLessThan(answer.scale.highLu)
    }
    expect(answer.ground.readings).toEqual([])
    expect([answer.changed, answer.alarms, answer.reference]).toEqual([null, [], null])
    expect(answer.next.bands).toBeGreaterThan(2)
  })
})
