import fc from 'fast-check'
import { expect, test } from 'vitest'
import { finishBound } from './bound.ts'
import { sessionPlan } from './plan.ts'
import type { SessionProblem } from './problem.ts'

const CLASS: SessionProblem = {
  stations: [
    { name: 'coat', machines: 2, minutes: 8, people: true },
    { name: 'dry', machines: 20, minutes: 60, people: false },
    { name: 'expose', machines: 1, minutes: 10, people: true },
    {
      name: 'wash out',
      machines: 2,
      minutes: 6,
      people: true,
      after: { station: 2, minMin: 0, maxMin: 15 },
    },
  ],
  people: Array.from({ length: 10 }, (_, at) => ({ name: `P${at}`, screens: 1, arriveMin: 0 })),
}

test('a class of ten at one lamp is done when the lamp allows it, and that is proved', () => {
  // The lamp is the narrow place: coats end at 8, 16, …; drying till 68; ten times 10 min; 6 min more.
  const { finishMin, bound, proved } = sessionPlan(CLASS)
  expect({ finishMin, bound, proved }).toEqual({ finishMin: 174, bound: 174, proved: true })
})

test('one person with three screens does what needs them one after another', () => {
  const people = [{ name: 'A', screens: 3, arriveMin: 5 }]
  const stations = [{ name: 'print', machines: 3, minutes: 20, people: true }]
  expect(sessionPlan({ stations, people })).toMatchObject({ finishMin: 65, proved: true })
  const alone = [{ name: 'dry', machines: 3, minutes: 20, people: false }]
  expect(sessionPlan({ stations: alone, people })).toMatchObject({ finishMin: 25, proved: true })
})

const small = fc.record({
  stations: fc.array(
    fc.record({
      machines: fc.integer({ min: 1, max: 2 }),
      minutes: fc.integer({ min: 1, max: 9 }),
      people: fc.boolean(),
      lag: fc.option(
        fc.record({ least: fc.integer({ min: 0, max: 6 }), more: fc.integer({ min: 0, max: 9 }) }),
      ),
    }),
    { minLength: 1, maxLength: 4 },
  ),
  people: fc.array(
    fc.record({
      screens: fc.integer({ min: 1, max: 2 }),
      arriveMin: fc.integer({ min: 0, max: 9 }),
    }),
    { minLength: 1, maxLength: 3 },
  ),
})
type Small = typeof small extends fc.Arbitrary<infer Value> ? Value : never

function asProblem({ stations, people }: Small, { lags }: { lags: boolean }): SessionProblem {
  return {
    stations: stations.map(({ lag, ...station }, at) => ({
      ...station,
      name: `station ${at}`,
      after:
        lag === null || at === 0 || !lags
          ? undefined
          : { station: at - 1, minMin: lag.least, maxMin: lag.least + lag.more },
    })),
    people: people.map((person, at) => ({ ...person, name: `person ${at}` })),
  }
}

test('invariant: a timetable keeps machines, people, order and lags, and never beats its bound', () => {
  fc.assert(
    fc.property(small, (drawn) => {
      const problem = asProblem(drawn, { lags: true })
      const { tasks, finishMin, bound } = sessionPlan(problem)
      expect(finishMin).toBeGreaterThanOrEqual(bound - 1e-9)
      expect(Math.max(...tasks.map(({ endMin }) => endMin))).toBe(finishMin)
      const screens = problem.people.reduce((sum, person) => sum + person.screens, 0)
      expect(tasks).toHaveLength(screens * problem.stations.length)
      for (const [at, one] of tasks.entries()) {
        for (const other of tasks.slice(at + 1)) {
          const apart = one.endMin <= other.startMin + 1e-9 || other.endMin <= one.startMin + 1e-9
          const sameMachine = one.station === other.station && one.machine === other.machine
          const stays = (name: string) =>
            problem.stations.find((each) => each.name === name)?.people
          const samePerson =
            one.person === other.person && stays(one.station) && stays(other.station)
          if (sameMachine || samePerson) expect(apart).toBe(true)
        }
      }
      for (const { name, screens: count } of problem.people) {
        for (let screen = 1; screen <= count; screen++) {
          const own = problem.stations.map(({ name: station }) =>
            tasks.find(
              (task) => task.person === name && task.screen === screen && task.station === station,
            ),
          )
          for (const [at, { after }] of problem.stations.entries()) {
            if (at > 0)
              expect(own[at]?.startMin).toBeGreaterThanOrEqual((own[at - 1]?.endMin ?? 0) - 1e-9)
            if (after === undefined) continue
            const lag = (own[at]?.startMin ?? 0) - (own[after.station]?.endMin ?? 0)
            expect(lag).toBeGreaterThanOrEqual(after.minMin - 1e-9)
            expect(lag).toBeLessThanOrEqual((after.maxMin ?? 0) + 1e-9)
          }
        }
      }
    }),
    { numRuns: 60 },
  )
})

test('invariant: what is proved is the least that all orders of all stations reach', () => {
  const tiny = small.filter(
    ({ stations, people }) =>
      stations.length * people.reduce((sum, { screens }) => sum + screens, 0) <= 6,
  )
  let reached = 0
  fc.assert(
    fc.property(tiny, (drawn) => {
      const problem = asProblem(drawn, { lags: false })
      const plan = sessionPlan(problem)
      const least = leastOfAll(problem)
      expect(finishBound(problem)).toBeLessThanOrEqual(least + 1e-9)
      expect(plan.finishMin).toBeGreaterThanOrEqual(least - 1e-9)
      if (plan.proved) expect(plan.finishMin).toBe(least)
      reached += plan.finishMin === least ? 1 : 0
    }),
    { numRuns: 100, seed: 11 },
  )
  expect(reached).toBeGreaterThanOrEqual(95)
})

/** Every order in which single stations can be taken up, each as early as then is possible. */
function leastOfAll({ stations, people }: SessionProblem): number {
  const screens = people.flatMap(({ screens: count, arriveMin }, person) =>
    Array.from({ length: count }, () => ({ person, arriveMin })),
  )
  let least = Number.POSITIVE_INFINITY
  const visit = (
    done: readonly number[],
    ready: readonly number[],
    machines: readonly (readonly number[])[],
    persons: readonly number[],
  ): void => {
    if (done.every((count) => count === stations.length)) {
      least = Math.min(least, Math.max(...ready))
      return
    }
    for (const [screen, { person }] of screens.entries()) {
      const at = done[screen] ?? 0
      const station = stations[at]
      if (station === undefined) continue
      const free = machines[at] ?? []
      const machine = free.indexOf(Math.min(...free))
      const start = Math.max(
        ready[screen] ?? 0,
        free[machine] ?? 0,
        station.people ? (persons[person] ?? 0) : 0,
      )
      const end = start + station.minutes
      const put = (list: readonly number[], index: number, value: number) =>
        list.map((old, each) => (each === index ? value : old))
      visit(
        put(done, screen, at + 1),
        put(ready, screen, end),
        machines.map((list, each) => (each === at ? put(list, machine, end) : list)),
        station.people ? put(persons, person, end) : persons,
      )
    }
  }
  visit(
    screens.map(() => 0),
    screens.map(({ arriveMin }) => arriveMin),
    stations.map(({ machines }) => Array.from({ length: machines }, () => 0)),
    people.map(() => 0),
  )
  return least
}
