import { mkdtemp, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, test } from 'vitest'
import type { SessionTask } from '../../src/core/session/plan.ts'
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

// By hand: dry begins when expose ends and takes 10 minutes, so wash cannot begin within 5 of its end.
test('a longest wait that nobody could keep is refused, and one of just so long is kept', async () => {
  const dry = { name: 'dry', machines: 9, minutes: 10 }
  const within = (maxMin: number): object => ({
    people: [{ name: 'A', screens: 2, arriveMin: 0 }],
    stations: [EXPOSE, dry, { ...EXPOSE, name: 'wash', after: { station: 'expose', maxMin } }],
  })
  await writeFile(at('short.json'), JSON.stringify(within(5)))
  expect(await refused(['session', at('short.json')])).toEqual({
    exit: 2,
    kind: 'wrong input',
    field: 'stations[2].after.maxMin',
    message:
      'stations[2].after.maxMin must be at least 10 min, which what lies between takes; the session says 5.',
  })
  await writeFile(at('just.json'), JSON.stringify(within(10)))
  const { tasks } = (await json(['session', at('just.json')])) as { tasks: SessionTask[] }
  for (const screen of [1, 2]) {
    const [expose, , wash] = tasks.filter((task) => task.screen === screen)
    expect(wash?.startMin).toBe((expose?.endMin ?? 0) + 10)
  }
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
