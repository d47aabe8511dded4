import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { floorAt } from './floor.ts'
import {
  finishWithFailures,
  type LiveEvent,
  type LivePlan,
  type LiveProblem,
  lastStart,
  livePlan,
} from './live.ts'

const STATIONS = [
  { name: 'coat', machines: 2, minutes: 8, people: true },
  { name: 'dry', machines: 8, minutes: 40, people: false },
  { name: 'light', machines: 1, minutes: 9, people: true },
  { name: 'water', machines: 2, minutes: 14, people: true },
  { name: 'dry again', machines: 4, minutes: 25, people: false },
]
const problem = (...names: readonly string[]): LiveProblem => ({
  stations: STATIONS,
  people: names.map((name) => ({ name, screens: 1, arriveMin: 0 })),
  againFrom: 2,
})
const at = ({ tasks }: LivePlan, person: string, station: string, again = 0) =>
  tasks.find((task) => task.person === person && task.station === station && task.again === again)

/** No two tasks on one machine, nor of one person where people stay, at once; each way in its order. */
function clashes({ tasks }: LivePlan): readonly string[] {
  const found: string[] = []
  for (const [index, one] of tasks.entries()) {
    for (const other of tasks.slice(index + 1)) {
      const overlap = one.startMin < other.endMin - 1e-6 && other.startMin < one.endMin - 1e-6
      const sameMachine = one.station === other.station && one.machine === other.machine
      const stays = (name: string): boolean =>
        STATIONS.find((each) => each.name === name)?.people === true
      const samePerson = one.person === other.person && stays(one.station) && stays(other.station)
      if (overlap && (sameMachine || samePerson)) found.push(JSON.stringify([one, other]))
    }
  }
  return found
}

describe('a class that goes on', () => {
  test('one screen, by hand: 8, 40, 9, 14 and 25 minutes one after another', () => {
    const plan = livePlan(problem('Ada'), [])
    expect(plan).toMatchObject({ finishMin: 96, proved: true, moved: [] })
    expect(at(plan, 'Ada', 'light')).toMatchObject({ startMin: 48, endMin: 57 })
  })

  test('a screen that failed at the sink is made again from the lamp, and all that moves is said', () => {
    const before = livePlan(problem('Ada', 'Ben'), [])
    expect(at(before, 'Ben', 'light')?.startMin).toBe(57)
    const after = livePlan(problem('Ada', 'Ben'), [
      { kind: 'failed', person: 'Ada', screen: 1, atMin: 65 },
    ])
    expect(at(after, 'Ada', 'water')).toMatchObject({ failed: true, endMin: 65 })
    expect(at(after, 'Ada', 'dry again')).toBeUndefined()
    // Ben is under the lamp until 66: then it is free for Ada
    expect(at(after, 'Ada', 'light', 1)).toMatchObject({ startMin: 66, endMin: 75 })
    expect(after.finishMin).toBe(66 + 9 + 14 + 25)
    expect(after.moved).toEqual([])
    const early = livePlan(problem('Ada', 'Ben'), [
      { kind: 'failed', person: 'Ada', screen: 1, atMin: 50 },
    ])
    // the lamp is hers again from 50 to 59, so Ben's 57 becomes 59
    expect(at(early, 'Ada', 'light', 1)).toMatchObject({ startMin: 50 })
    expect(early.moved[0]).toEqual({ person: 'Ben', station: 'light', byMin: 2, startMin: 59 })
    expect(clashes(early)).toEqual([])
  })

  test('who comes late begins later; what has begun stays', () => {
    const after = livePlan(problem('Ada', 'Ben'), [
      { kind: 'late', person: 'Ben', screen: 1, atMin: 0, minutes: 30 },
    ])
    expect(at(after, 'Ben', 'coat')?.startMin).toBe(30)
    expect(at(after, 'Ada', 'coat')?.startMin).toBe(0)
    expect(after.moved.every(({ person, byMin }) => person === 'Ben' && byMin > 0)).toBe(true)
  })

  test('done earlier than planned gives the time to all that follow', () => {
    const after = livePlan(problem('Ada'), [
      { kind: 'done', person: 'Ada', screen: 1, station: 'dry', atMin: 30 },
    ])
    expect(after.finishMin).toBe(30 + 9 + 14 + 25)
  })

  test('two more failures: the last two at the sink, once more from the lamp', () => {
    const plan = livePlan(problem('Ada', 'Ben'), [])
    expect(
      finishWithFailures(plan, { problem: problem('Ada', 'Ben'), station: 'water', count: 0 }),
    ).toBe(plan.finishMin)
    // Ben's water ends at 57 + 9 + 14 = 80: then 9 + 14 + 25
    expect(
      finishWithFailures(plan, { problem: problem('Ada', 'Ben'), station: 'water', count: 1 }),
    ).toBe(80 + 48)
  })

  test('the last start that is safe: alone, the sum of all before the room closes', () => {
    const plan = livePlan(problem('Ada'), [])
    expect(lastStart(plan, { problem: problem('Ada'), byMin: 300, nowMin: 0 })).toBe(204)
    expect(lastStart(plan, { problem: problem('Ada'), byMin: 300, nowMin: 210 })).toBeNull()
  })

  test('invariant: whatever happens, nobody and no machine is in two places', () => {
    const names = ['Ada', 'Ben', 'Cy', 'Dee']
    const event = fc
      .record({
        person: fc.constantFrom(...names),
        atMin: fc.integer({ min: 1, max: 160 }),
        kind: fc.constantFrom('failed' as const, 'late' as const),
      })
      .map(
        ({ kind, ...who }): LiveEvent =>
          kind === 'late' ? { kind, ...who, screen: 1, minutes: 17 } : { kind, ...who, screen: 1 },
      )
    fc.assert(
      fc.property(fc.array(event, { maxLength: 4 }), (events) => {
        const plan = livePlan(problem(...names), events)
        expect(clashes(plan)).toEqual([])
        for (const name of names) {
          const ends = plan.tasks.filter(({ person }) => person === name)
          expect(ends.some(({ station, failed }) => station === 'dry again' && !failed)).toBe(true)
        }
      }),
      { seed: 7, numRuns: 40 },
    )
  })
})

test('the floor: who dries, who is under the lamp, who comes next, who is done', () => {
  const { tasks } = livePlan(problem('Ada', 'Ben'), [])
  const floor = floorAt(tasks, { stations: STATIONS, nowMin: 47 })
  expect(floor[1]).toMatchObject([
    { person: 'Ada', state: 'drying', min: 48 },
    { person: 'Ben', state: 'drying', min: 48 },
  ])
  expect(floor[2]).toMatchObject([
    { person: 'Ada', state: 'not yet', min: 48 },
    { person: 'Ben', state: 'not yet', min: 57 },
  ])
  const later = floorAt(tasks, { stations: STATIONS, nowMin: 50 })
  expect(later[2]).toMatchObject([{ person: 'Ada', state: 'here now' }, { person: 'Ben' }])
  expect(floorAt(tasks, { stations: STATIONS, nowMin: 200 }).at(-1)).toHaveLength(2)
})

test('what is told of a screen that is not in the class changes nothing', () => {
  const asked = problem('Ada', 'Bo')
  const plain = livePlan(asked, [])
  for (const stray of [
    { kind: 'failed', person: 'Cy', screen: 1, atMin: 70 },
    { kind: 'failed', person: 'Bo', screen: 2, atMin: 70 },
  ] as const) {
    expect(livePlan(asked, [stray])).toEqual(plain)
  }
})
