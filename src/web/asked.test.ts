import { expect, test } from 'vitest'
import { type Asked, type AskedEvent, NOTHING_ASKED, nextAsked } from './asked.ts'

const at = new Date(2026, 10, 9, 14, 2)
const after = (...events: readonly AskedEvent<number>[]): Asked<number> =>
  events.reduce<Asked<number>>(nextAsked, NOTHING_ASKED)

test('an answer stays on the page while the next one is worked out', () => {
  const state = after(
    { kind: 'asked' },
    { kind: 'reply', reply: { kind: 'answer', answer: 42 }, at },
    { kind: 'asked' },
    { kind: 'slow' },
  )
  expect(state).toMatchObject({ answer: 42, now: 'working', slow: true })
})

test('a quick answer is never called slow', () => {
  const state = after(
    { kind: 'asked' },
    { kind: 'reply', reply: { kind: 'answer', answer: 42 }, at },
    { kind: 'slow' },
  )
  expect(state).toMatchObject({ now: 'here', slow: false })
})

test('without a connection the last answer keeps its time', () => {
  const state = after(
    { kind: 'asked' },
    { kind: 'reply', reply: { kind: 'answer', answer: 42 }, at },
    { kind: 'asked' },
    { kind: 'reply', reply: { kind: 'no connection' }, at: new Date(2026, 10, 9, 15) },
  )
  expect(state).toMatchObject({ answer: 42, answeredAt: at, now: 'no connection' })
})

test('a refusal keeps its sentence and field until something else is asked', () => {
  const refused = after({
    kind: 'reply',
    reply: { kind: 'refused', message: 'Choose another screen.', field: 'screen' },
    at,
  })
  expect(refused).toMatchObject({
    now: 'refused',
    message: 'Choose another screen.',
    field: 'screen',
  })
  expect(nextAsked(refused, { kind: 'asked' })).toMatchObject({ now: 'working', message: null })
})

test('asking again by itself does not blink: it still says that it opens', () => {
  const opening = after({ kind: 'reply', reply: { kind: 'opening' }, at }, { kind: 'slow' })
  expect(nextAsked(opening, { kind: 'asked' })).toMatchObject({ now: 'opening', slow: true })
})
