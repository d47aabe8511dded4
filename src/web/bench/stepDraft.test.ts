import { expect, test } from 'vitest'
import { listProblem, stepsOf } from '../../core/runSheet/ownList.ts'
import { draftOf, listOf, usualSteps, withOwn } from './stepDraft.ts'

const FACTS = {
  subject: 'soft pencil',
  screen: 'screen 14',
  countsIn: 'light units',
  dose: { value: 61, low: 50, high: 70 },
  litSec: { low: 90, high: 100 },
  wedgeSteps: 21,
} as const
const usual = usualSteps(stepsOf(FACTS).map((step) => ({ ...step })) as never)
const drafts = usual.map(draftOf)

test('a list that nobody changed says nothing: each exposure keeps its own numbers', () => {
  const list = listOf(drafts, { usual })
  expect(list).toEqual(usual.map(({ name }) => ({ name })))
  expect(stepsOf(FACTS, { list })).toEqual(stepsOf(FACTS))
})

test('what was changed is told, a step of the shop’s own goes in, and one that may go is out', () => {
  const washing = drafts.findIndex(({ name }) => name === 'wash')
  const changed = withOwn(
    drafts.map((draft) => (draft.name === 'wash' ? { ...draft, clock: '75' } : draft)),
    washing,
  )
    .map((draft) => (draft.name === 'own-1' ? { ...draft, title: 'Sweep the floor' } : draft))
    .filter(({ name }) => name !== 'wedge')
  const list = listOf(changed, { usual })
  expect(list[washing]).toEqual({ name: 'wash', clockSec: 75 })
  expect(list[washing + 1]).toEqual({ name: 'own-1', title: 'Sweep the floor' })
  expect(listProblem(list)).toBeNull()
  expect(stepsOf(FACTS, { list })).toHaveLength(usual.length)
})

test('a step of one’s own without a title is no step yet', () => {
  expect(listProblem(listOf(withOwn(drafts, 0), { usual }))).toContain('needs a title')
})
