import { type RunFacts, STEP_NAMES, type Step, type StepName } from './step.ts'
import { PLAIN, stepsAtLamp } from './stepsAtLamp.ts'
import { stepsAtSink } from './stepsAtSink.ts'

/**
 * One entry of a shop's own list for a unit: a usual step, with its own seconds or words where they
 * differ, or a step of the shop's own, which is named `own-1` and needs a title.
 */
export type ListEntry = Readonly<{
  name: string
  title?: string | undefined
  lines?: readonly string[] | undefined
  clockSec?: number | undefined
}>

/** The steps of one exposure, in order: as usual, or by the shop's own list. */
export function stepsOf(
  facts: RunFacts,
  { list = null }: Readonly<{ list?: readonly ListEntry[] | null }> = {},
): readonly Step[] {
  const usual = [...stepsAtLamp(facts), ...stepsAtSink(facts)]
  if (list === null) return usual
  return list.map((entry) => {
    const step = usual.find(({ name }) => name === entry.name) ?? ownStep(entry.name)
    const { title = step.title, lines = step.lines, clockSec } = entry
    const clock =
      step.clock === null || clockSec === undefined ? step.clock : { ...step.clock, sec: clockSec }
    return { ...step, title, lines, clock }
  })
}

/** Nobody may take these off a list: what can hurt stands there, or an exposure hangs on it. */
export const KEPT_STEPS: readonly StepName[] = [
  'lid',
  'vacuum',
  'set',
  'lamp',
  'wet',
  'wash',
  'look',
  'cool',
]

/** Why a list cannot be one, in a sentence; null when it can. */
export function listProblem(list: readonly ListEntry[]): string | null {
  const names = list.map(({ name }) => name)
  const twice = names.find((name, at) => names.indexOf(name) !== at)
  if (twice !== undefined) return `The step ${twice} stands in the list twice: take one out.`
  const missing = KEPT_STEPS.find((name) => !names.includes(name))
  if (missing !== undefined) return `The step ${missing} has to stay in the list: put it back.`
  const order = names.flatMap((name) => placeOf(name) ?? [])
  if (order.some((place, at) => at > 0 && place < (order[at - 1] ?? 0))) {
    return 'The usual steps have to stay in their order: only steps of your own may stand anywhere.'
  }
  const bare = list.find(({ name, title }) => placeOf(name) === null && title === undefined)
  return bare === undefined ? null : 'A step of your own needs a title: say what to do.'
}

function placeOf(name: string): number | null {
  const place = (STEP_NAMES as readonly string[]).indexOf(name)
  return place === -1 ? null : place
}

function ownStep(name: string): Step {
  return { ...PLAIN, name, title: name, lines: [], done: 'Done', causes: [] }
}
