import { expect, test } from 'vitest'
import { roadOf } from '../ticket/road.ts'
import { stepsOf } from './ownList.ts'
import type { RunEvent } from './progress.ts'
import { roadOfRun } from './roadOfRun.ts'

const STEPS = stepsOf({
  subject: 'soft pencil',
  screen: 'screen 14',
  countsIn: 'light units',
  dose: { value: 42, low: 36, high: 47 },
  litSec: null,
  wedgeSteps: 21,
})
const happened = (...told: readonly string[]): readonly RunEvent[] =>
  told.map((text, at) => {
    const [step = '', cause = null] = text.split(': ')
    const kind = cause === null ? 'done' : 'not right'
    return { key: `told-${text}`, kind, step, cause, value: null, second: null, atMs: 1000 * at }
  })
const road = (events: readonly RunEvent[]): string =>
  roadOfRun(STEPS, events)
    .map(({ kind, station }) => `${kind} ${station}`)
    .join(', ')
const LIT = ['screen', 'glass', 'film', 'lay', 'lid', 'vacuum', 'set', 'lamp']

test('a lamp that has gone out leaves the layer at its water; whole, open and dry it is at the press', () => {
  const told = happened(...LIT, 'read', 'wet', 'wash', 'look', 'wedge', 'dry', 'cool')
  expect(road(told.slice(0, 7))).toBe('')
  expect(road(told.slice(0, 8))).toBe('done light')
  expect(road(told)).toBe('done light, done water')
  expect(roadOf(roadOfRun(STEPS, told)).at).toBe('print')
})

test('what is told twice, late or after it was gone past moves the layer once', () => {
  const told = happened(...LIT, 'read', 'wet', 'wash', 'look', 'wedge', 'dry')
  const again = roadOfRun(STEPS, [...told.toReversed(), ...told])
  expect(again).toEqual(roadOfRun(STEPS, told))
  expect(new Set(again.map(({ key }) => key)).size).toBe(2)
})

test('a ground that came off goes back to the screen, and says why; marks that stay shut wait for the check', () => {
  const off = happened(...LIT, 'read', 'wet', 'wash', 'look: gone', 'wedge', 'dry')
  expect(road(off)).toBe('done light, back screen')
  expect(roadOfRun(STEPS, off)[1]?.why).toBe('The ground has come off.')
  const shut = happened(...LIT, 'read', 'wet', 'wash', 'look: shut', 'wedge', 'dry')
  expect(road(shut)).toBe('done light')
})

test('a thin coat and a film made the wrong way stop the exposure and send the layer back', () => {
  expect(road(happened('screen: thin'))).toBe('back screen')
  expect(road(happened('screen', 'glass', 'film: below'))).toBe('back film')
  expect(road(happened(...LIT.slice(0, 5), 'vacuum: pump'))).toBe('')
})
