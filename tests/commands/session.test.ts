import { mkdtemp, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { json, refused } from './run.ts'

let place = ''
const at = (name: string): string => join(place, name)
beforeAll(async () => {
  place = await mkdtemp(join(tmpdir(), 'session-'))
})
afterAll(() => rm(place, { recursive: true }))

const EXPOSE = { name: 'expose', machines: 1, minutes: 10, people: true }
const GOOD = { stations: [EXPOSE], people: [{ name: 'A', screens: 2, arriveMin: 5 }], endMin: 20 }

test('finishing past the end is an answer that names who is late', async () => {
  await writeFile(at('s.json'), JSON.stringify(GOOD))
  // Two screens of one person, ten minutes each, from minute 5 on.
  expect(await json(['session', at('s.json')])).toMatchObject({
    kind: 'session',
    finishMin: 25,
    bound: 25,
    proved: true,
    late: [{ person: 'A', screen: 2, endMin: 25 }],
    tasks: [
      { person: 'A', screen: 1, station: 'expose', machine: 1, startMin: 5, endMin: 15 },
      { person: 'A', screen: 2, station: 'expose', machine: 1, startMin: 15, endMin: 25 },
    ],
  })
})

const after = (station: string, more: object = {}): object => ({
  ...GOOD,
  stations: [EXPOSE, { ...EXPOSE, name: 'wash', after: { station, ...more } }],
})

test.each([
  ['stations', { ...GOOD, stations: [] }],
  ['stations[0].minutes', { ...GOOD, stations: [{ name: 'a', machines: 1 }] }],
  ['stations[0].machines', { ...GOOD, stations: [{ ...EXPOSE, machines: 0 }] }],
  ['stations[0].people', { ...GOOD, stations: [{ ...EXPOSE, people: 'yes' }] }],
  ['stations[1].name', { ...GOOD, stations: [EXPOSE, EXPOSE] }],
  ['stations[1].after.station', after('nowhere')],
  ['stations[1].after.maxMin', after('expose', { minMin: 9, maxMin: 3 })],
  ['people', { ...GOOD, people: [{ name: 'A', screens: 0 }] }],
  ['people[0].arriveMin', { ...GOOD, people: [{ name: 'A', arriveMin: -1 }] }],
  ['end', { ...GOOD, end: 3 }],
])('what is wrong with %s is one sentence', async (field, session) => {
  await writeFile(at('wrong.json'), JSON.stringify(session))
  const { exit, message, field: said } = await refused(['session', at('wrong.json')])
  expect([exit, said]).toEqual([2, field])
  expect(message).toMatch(/^\S.*[.?]$/)
})
