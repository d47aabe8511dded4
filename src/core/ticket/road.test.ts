import fc from 'fast-check'
import { expect, test } from 'vitest'
import { nextOnTicket, type RoadEvent, roadOf, STATIONS } from './road.ts'

test('a layer of which nothing was told stands at its artwork', () => {
  const { at, states } = roadOf([])
  expect(at).toBe('artwork')
  expect(states).toEqual(['here now', ...Array.from({ length: 6 }, () => 'not yet')])
})

test('a station that is done takes all before it along', () => {
  const { at, states } = roadOf([{ kind: 'done', station: 'light' }])
  expect(at).toBe('water')
  expect(states.slice(0, 5)).toEqual(['done', 'done', 'done', 'done', 'here now'])
})

test('a screen that failed at the sink goes back to be coated, and is drawn as made again', () => {
  const failed: readonly RoadEvent[] = [
    { kind: 'done', station: 'light' },
    { kind: 'back', station: 'screen' },
  ]
  expect(roadOf(failed)).toMatchObject({ at: 'screen' })
  expect(roadOf(failed).states.slice(2)).toEqual([
    'make again',
    ...Array.from({ length: 4 }, () => 'not yet'),
  ])
  const mended = roadOf([...failed, { kind: 'done', station: 'screen' }])
  expect(mended.at).toBe('light')
  expect(mended.states).not.toContain('make again')
})

test('the next thing is on the first layer that is not printed, and reclaiming comes last', () => {
  const printed = roadOf([{ kind: 'done', station: 'print' }])
  const atLight = roadOf([{ kind: 'done', station: 'screen' }])
  const walked = roadOf([{ kind: 'done', station: 'reclaim' }])
  expect(nextOnTicket([printed, atLight])).toEqual({ layer: 1, station: 'light' })
  expect(nextOnTicket([walked, printed])).toEqual({ layer: 1, station: 'reclaim' })
  expect(nextOnTicket([walked, walked])).toBeNull()
  expect(nextOnTicket([])).toBeNull()
})

test('invariant: a road has all that is done, then at most one station to be at, then what is not yet', () => {
  const event = fc.record({
    kind: fc.constantFrom('done' as const, 'back' as const),
    station: fc.constantFrom(...STATIONS),
  })
  fc.assert(
    fc.property(fc.array(event, { maxLength: 12 }), (events) => {
      const { at, states } = roadOf(events)
      const order = states.map((state) => ['done', 'here now', 'not yet'].indexOf(plain(state)))
      expect(order).toEqual(order.toSorted((a, b) => a - b))
      expect(states.filter((state) => plain(state) === 'here now').length).toBe(at === null ? 0 : 1)
    }),
  )
})

function plain(state: string): string {
  return state === 'make again' ? 'here now' : state
}
