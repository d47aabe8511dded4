import type { StepList } from '../../api/bench.ts'
import { type ListEntry, stepsOf } from '../../core/runSheet/ownList.ts'
import type { Step } from '../../core/runSheet/step.ts'

/** A step of the list as it is being written. */
export type StepDraft = Readonly<{
  name: string
  title: string
  first: string
  second: string
  /** In seconds; empty where there is no clock that runs down. */
  clock: string
}>

/** The usual steps for an exposure of any kind. */
export function usualSteps(steps: StepList['steps']): readonly Step[] {
  const set = steps.find(({ asks }) => asks?.what === 'set')?.asks
  const countsIn = set?.what === 'set' ? set.unit : ''
  return stepsOf({
    subject: 'film',
    screen: null,
    countsIn: countsIn === 'seconds' ? 'seconds' : 'light units',
    dose: { value: 42, low: 36, high: 47 },
    litSec: null,
    wedgeSteps: 21,
  })
}

export function draftOf({
  name,
  title,
  lines,
  clock,
}: Step | StepList['steps'][number]): StepDraft {
  const [first = '', second = ''] = lines
  return { name, title, first, second, clock: clock?.sec === null ? '' : String(clock?.sec ?? '') }
}

/** The list that was written: of a usual step only what is other than usual. */
export function listOf(
  drafts: readonly StepDraft[],
  { usual }: Readonly<{ usual: readonly Step[] }>,
): readonly ListEntry[] {
  return drafts.map(({ name, title, first, second, clock }) => {
    const step = usual.find((each) => each.name === name)
    const lines = [first.trim(), second.trim()].filter((line) => line !== '')
    const before = step === undefined ? null : draftOf(step)
    const isSame = before !== null && before.first === first && before.second === second
    const sec = Number(clock.replace(',', '.'))
    return {
      name,
      ...(before?.title === title || title.trim() === '' ? {} : { title: title.trim() }),
      ...(isSame || (before === null && lines.length === 0) ? {} : { lines }),
      ...(before === null || before.clock === clock || !(sec >= 1) ? {} : { clockSec: sec }),
    }
  })
}

/** A step of the shop's own, after another. */
export function withOwn(drafts: readonly StepDraft[], after: number): readonly StepDraft[] {
  const taken = new Set(drafts.map(({ name }) => name))
  let number = 1
  while (taken.has(`own-${number}`)) number++
  const own = { name: `own-${number}`, title: '', first: '', second: '', clock: '' }
  return drafts.toSpliced(after + 1, 0, own)
}
