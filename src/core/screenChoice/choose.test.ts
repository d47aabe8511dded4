import fc from 'fast-check'
import { expect, test } from 'vitest'
import { weaveNamed } from '../fabric/geometry.ts'
import { near } from '../units/near.testing.ts'
import type { Coat, FilmAsked, ScreenAsked } from './asked.ts'
import { rankScreens } from './choose.ts'
import { holdsOf } from './holds.ts'
import { standsAt } from './stands.ts'

const HOUR = 3600_000
const DAY = 24 * HOUR
const NOW = 1000 * DAY
const COAT: Coat = {
  coatedAtMs: NOW - DAY,
  dryAtMs: null,
  goodUntilMs: null,
  bucketExpiresAtMs: null,
  overMeshUm: null,
}
const screen = (fabric: string, other: Partial<ScreenAsked> = {}): ScreenAsked => ({
  id: fabric,
  weave: weaveNamed(fabric),
  insideMm: { widthMm: 500, heightMm: 700 },
  state: 'coated',
  keptForOther: null,
  taken: false,
  coating: COAT,
  ...other,
})
const FILM: FilmAsked = { widthsUm: null, sizeMm: null, rulingPerCm: null, ink: null }
const order = (screens: readonly ScreenAsked[], film: Partial<FilmAsked>): string =>
  rankScreens(screens, { film: { ...FILM, ...film }, nowMs: NOW })
    .map(({ id }) => id)
    .join(' ')

test('oracle ruling-ratios: 150 threads carry 40 lines a cm as usual, 60 at the finest, and 61 not', () => {
  const says = (rulingPerCm: number) =>
    holdsOf(screen('150-31'), { ...FILM, rulingPerCm }).tone?.says
  expect([says(40), says(41), says(60), says(61)]).toEqual(['yes', 'in doubt', 'in doubt', 'no'])
})

test('oracle fabric-rows: a solid through 90-48 takes the published 24 cm³ a m², a line the coat more', () => {
  const bare = { coating: { ...COAT, overMeshUm: 10 } }
  const { deposit } = holdsOf(screen('90-48', bare), FILM)
  near(deposit.solidUm, 24, { within: 1, because: 'the row is rounded, and means 88.58 a cm' })
  near(deposit.lineUm - deposit.solidUm, 10, { within: 1e-9, because: 'the coat stands over it' })
})

test('oracle finest-line: a film of 0.1 mm lines is held by 120 threads a cm, not by 77', () => {
  const film = { ...FILM, widthsUm: Array(20).fill(100) as number[] }
  const detail = (fabric: string) => holdsOf(screen(fabric), film).detail
  expect(detail('120-34')).toMatchObject({ says: 'yes', heldShare: 1 })
  expect(detail('77-55')).toMatchObject({ says: 'no', heldShare: 0 })
})

test('the coarsest that holds the lines stands first; thin ink wants the other end', () => {
  const shop = ['43-80', '77-55', '90-48', '120-34'].map((fabric) => screen(fabric))
  const widthsUm = Array(20).fill(135) as number[]
  expect(order(shop, { widthsUm })).toBe('77-55 90-48 120-34 43-80')
  expect(order(shop, { widthsUm, ink: 'thin' })).toBe('120-34 90-48 77-55 43-80')
})

test('a ready screen goes before one that must dry or be coated; torn and taken ones stand last', () => {
  const shop = [
    screen('110-34', { state: 'torn', coating: null }),
    screen('77-55', { state: 'clean', coating: null }),
    screen('90-48', { taken: true }),
    screen('100-40', { coating: { ...COAT, coatedAtMs: NOW - HOUR } }),
    screen('120-34'),
  ]
  expect(order(shop, { widthsUm: [400] })).toBe('120-34 77-55 100-40 90-48 110-34')
})

test('dates hold: dry by the told hour, kept for its owner, past its day, from a bucket too old', () => {
  const coat = (coating: Partial<Coat>) =>
    standsAt(screen('90-48', { coating: { ...COAT, ...coating } }), NOW)
  expect(coat({})).toMatchObject({ when: 'now' })
  expect(coat({ dryAtMs: NOW + 1 })).toEqual({ when: 'later', is: 'drying', dryAtMs: NOW + 1 })
  expect(coat({ goodUntilMs: NOW - 1 })).toMatchObject({ is: 'past its date' })
  expect(coat({ bucketExpiresAtMs: NOW - 2 * DAY })).toMatchObject({ is: 'of an old bucket' })
  expect(coat({ coatedAtMs: NOW - 29 * DAY })).toMatchObject({ is: 'past its date' })
  const kept = (untilMs: number | null) =>
    standsAt(screen('90-48', { keptForOther: { untilMs } }), NOW).when
  expect([kept(NOW + 1), kept(NOW - 1), kept(null)]).toEqual(['not', 'now', 'not'])
})

test('room: what is left between film and frame, the film turned as it suits', () => {
  const room = (widthMm: number, heightMm: number) =>
    holdsOf(screen('90-48'), { ...FILM, sizeMm: { widthMm, heightMm } }).room
  expect(room(200, 400)).toEqual({ about: 'room', says: 'yes', clearanceMm: 150 })
  expect(room(420, 297)).toEqual({ about: 'room', says: 'in doubt', clearanceMm: 101.5 })
  expect(room(510, 510)?.says).toBe('no')
})

test('invariant: every screen is ranked once, none that cannot be had before one that can', () => {
  const states = ['clean', 'coated', 'exposed', 'in print', 'to reclaim', 'torn', 'lost'] as const
  const any = fc.record({
    fabric: fc.constantFrom('43-80', '77-55', '90-48', '120-34'),
    state: fc.constantFrom(...states),
    taken: fc.boolean(),
    width: fc.integer({ min: 20, max: 400 }),
  })
  fc.assert(
    fc.property(fc.array(any, { maxLength: 12 }), (all) => {
      const shop = all.map(({ fabric, state, taken }, at) =>
        screen(fabric, { id: String(at), state, taken }),
      )
      const film = { ...FILM, widthsUm: all.map(({ width }) => width) }
      const ranked = rankScreens(shop, { film, nowMs: NOW })
      expect(ranked.map(({ id }) => id).sort()).toEqual(shop.map(({ id }) => id).sort())
      const had = ranked.map(({ stands }) => stands.when !== 'not')
      expect(had).toEqual(had.toSorted((a, b) => Number(b) - Number(a)))
    }),
    { numRuns: 60 },
  )
})
