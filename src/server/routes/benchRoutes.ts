import {
  newRun,
  newStepList,
  type Run as RunTold,
  run as runAnswer,
  runList,
  runNews,
  type StepList,
  stepList,
} from '../../api/bench.ts'
import { PATHS } from '../../api/paths.ts'
import { USUAL_WEDGE } from '../../core/calibration/wedge.ts'
import { Failure } from '../../core/failure.ts'
import { listProblem, stepsOf } from '../../core/runSheet/ownList.ts'
import { exposureOf } from '../../store/exposures.ts'
import { keepStepList, openRuns, runEvents, runOf, stepListOf } from '../../store/runs.ts'
import { theShop } from '../../store/shop.ts'
import { layerOfFilm } from '../../store/tickets.ts'
import { begun } from '../bench/begin.ts'
import { happened } from '../bench/happened.ts'
import { runInList, runTold } from '../bench/runAnswer.ts'
import type { ShopDoor } from '../door.ts'
import { type Route, route, type Told } from '../http/route.ts'
import type { PeopleKeeper } from '../people/peopleKeeper.ts'
import { unitAsked } from '../shop/exposureAsked.ts'
import type { ShopService } from '../shop/shopService.ts'

const RUN = `${PATHS.runs}/{run}`
const MOST_RUNS = 40
/** What was left open yesterday is nobody's any more. */
const OPEN_MS = 16 * 3600_000

/** One exposure step by step, at the lamp and at the sink. */
export function benchRoutes(door: ShopDoor, keeper: PeopleKeeper): readonly Route[] {
  return [
    route({
      method: 'post',
      path: PATHS.runs,
      summary:
        'begins an exposure from what Light answers: its steps, its plan; begun twice under one key it is one',
      body: newRun,
      answer: runAnswer,
      status: 201,
      run: async ({ body, request }) => {
        const who = await keeper.whoIs(door.shop(), request)
        const { id } = await begun(door.shop(), body, { who })
        return told(door.shop(), id)
      },
    }),
    route({
      method: 'get',
      path: PATHS.runs,
      summary: 'exposures that go on in the room, the last begun first',
      answer: runList,
      run: async () => {
        const { store, now } = door.shop()
        const begunSince = new Date(now().getTime() - OPEN_MS)
        const open = await openRuns(store.database, { limit: MOST_RUNS, begunSince })
        const runs = []
        for (const run of open) {
          const events = await runEvents(store.database, { runId: run.id })
          const [film = null] = (await exposureOf(store.database, run.exposureId)).filmIds
          const layer = await layerOfFilm(store.database, film)
          runs.push(runInList({ run, events, layer }))
        }
        return { kind: 'runs' as const, runs }
      },
    }),
    route({
      method: 'get',
      path: RUN,
      summary: 'one exposure: its steps and what happened at them',
      answer: runAnswer,
      run: ({ place }) => told(door.shop(), place('run')),
    }),
    route({
      method: 'post',
      path: `${RUN}/events`,
      summary:
        'what happened at the steps of an exposure, also late and again: it is taken down once, and a wedge or outcome becomes a reading',
      body: runNews,
      answer: runAnswer,
      run: async ({ body, place, request }) => {
        const { person } = await keeper.whoIs(door.shop(), request)
        const by = { personId: person?.id ?? null }
        const notTaken = await happened(door.shop(), place('run'), body, by)
        return told(door.shop(), place('run'), { notTaken })
      },
    }),
    route({
      method: 'get',
      path: `${PATHS.stepLists}/{unit}`,
      summary: 'the list of steps for a unit: the usual one, or the shop’s own',
      answer: stepList,
      run: ({ place }) => listTold(door.shop(), place('unit')),
    }),
    route({
      method: 'post',
      path: PATHS.stepLists,
      summary: 'a list of the shop’s own for a unit; null: the usual steps hold again',
      body: newStepList,
      answer: stepList,
      run: async ({ body: { unit, list } }) => {
        const service = door.shop()
        const { id: unitId } = unitAsked(await service.records(), unit)
        const problem = list === null ? null : listProblem(list)
        if (problem !== null) throw new Failure('wrong input', problem, { field: 'list' })
        const at = service.now()
        await keepStepList(service.store.database, { unitId, entries: list }, { at })
        return listTold(service, unitId)
      },
    }),
  ]
}

async function told(
  { store: { database }, now }: ShopService,
  id: string,
  { notTaken = null }: Readonly<{ notTaken?: string | null }> = {},
): Promise<Told<RunTold>> {
  const whole = { run: await runOf(database, id), events: await runEvents(database, { runId: id }) }
  const [film = null] = (await exposureOf(database, whole.run.exposureId)).filmIds
  const layer = await layerOfFilm(database, film)
  const isDemo = (await theShop(database)).kind === 'demo'
  return runTold(whole, { now: now(), isDemo, film, layer, notTaken })
}

/** How the steps read, for an exposure of any kind. */
async function listTold(service: ShopService, unit: string): Promise<Told<StepList>> {
  const { id, name, countsIn } = unitAsked(await service.records(), unit)
  const list = await stepListOf(service.store.database, { unitId: id })
  const dose = { value: 42, low: 36, high: 47 }
  const facts = { subject: 'film', screen: null, countsIn, dose, litSec: null }
  const steps = stepsOf({ ...facts, wedgeSteps: USUAL_WEDGE.steps }, { list })
  return { kind: 'step list', unit: name, list, steps }
}
