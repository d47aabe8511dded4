import { afterAll, beforeAll, expect, test } from 'vitest'
import { type Run, type RunEventTold, run } from '../../src/api/bench.ts'
import { PATHS, runEventsPath, runPath } from '../../src/api/paths.ts'
import { runState } from '../../src/core/runSheet/progress.ts'
import { eventsOf, withAnswer } from '../../src/web/bench/runLog.ts'
import { type OwnServer, startOwnYellowroom } from '../pages/realServer.testing.ts'
import { opened, postJson, until } from '../server/shopRoom.ts'

/** An exposure whose server is killed after each thing that happens, and told again what it was told. */

let server: OwnServer

beforeAll(async () => {
  server = await startOwnYellowroom()
  await opened(server)
  expect((await postJson(`${server.url}${PATHS.demoShop}`)).status).toBe(201)
}, 300_000)
afterAll(() => server.stop())

const at = (told: Run) =>
  runState(
    told.steps,
    eventsOf(withAnswer(null, { run: told, came: { nowMs: Date.parse(told.now), tookMs: 0 } })),
  )

test('is at the same step with the same clocks after a kill at each step, told twice', async () => {
  const body = { key: 'killed-at-each-step', medium: 'soft pencil', screen: '14' }
  const begun = run.parse(await (await postJson(`${server.url}${PATHS.runs}`, body)).json())
  const numbers: Readonly<Record<string, readonly [number, number | null]>> = {
    set: [42, null],
    read: [41, null],
    wedge: [7, 10],
  }
  let count = 0
  const event = (kind: RunEventTold['kind'], step: string): RunEventTold => ({
    key: `killed-event-${++count}`,
    kind,
    step,
    cause: null,
    value: numbers[step]?.[0] ?? null,
    second: numbers[step]?.[1] ?? null,
    at: new Date().toISOString(),
  })
  const known = async (): Promise<Run> =>
    run.parse(await (await fetch(`${server.url}${runPath(begun.id)}`)).json())
  for (const { name, clock } of begun.steps) {
    const kinds = clock === null || clock.start === null ? ['done'] : ['clock', 'done']
    for (const kind of kinds) {
      const news = {
        sentAt: new Date().toISOString(),
        events: [event(kind as RunEventTold['kind'], name)],
      }
      const told = run.parse(
        await (await postJson(`${server.url}${runEventsPath(begun.id)}`, news)).json(),
      )
      await server.kill()
      await server.startAgain()
      await until(() => opened(server).catch(() => null), 'opening again')
      await postJson(`${server.url}${runEventsPath(begun.id)}`, news)
      const again = await known()
      expect([name, kind, again.events]).toEqual([name, kind, told.events])
      expect(at(again)).toEqual(at(told))
    }
  }
  const end = await known()
  expect([end.readings, end.endedAt !== null]).toEqual([{ wedge: true, outcome: true }, true])
  expect(end.events).toHaveLength(count)
}, 1_800_000)
