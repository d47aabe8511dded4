import { describe, expect, test } from 'vitest'
import { near } from '../../units/near.testing.ts'
import { lu } from '../../units/quantity.ts'
import { randomFrom } from '../belief/draws.testing.ts'
import type { Grade } from '../belief/grades.ts'
import type { Kept } from '../belief/replay.ts'
import { disagrees, responseOf } from './responseOf.ts'

const marks = { medium: 'soft pencil' }
const screen = (doseLu: number, grade: Grade, more: Partial<Kept> = {}): Kept =>
  ({ kind: 'outcome', marks, doseLu: lu(doseLu), grade, ...more }) as Kept

/** Screens at even odds around the doses at which half hold, 20 lu, and half fill, 60 lu. */
function screens(count: number, seed: number): readonly Kept[] {
  const { uniform, normal } = randomFrom(seed)
  return Array.from({ length: count }, () => {
    const x = 1 + uniform()
    const [hold, fog] = [Math.log10(20) + 0.1 * normal(), Math.log10(60) + 0.12 * normal()]
    if (x < hold) return screen(10 ** x, 'washed off')
    return screen(10 ** x, x > fog + 0.1 ? 'filled' : x > fog ? 'filling' : 'good')
  })
}

test('the doses at which half hold and half fill lie in nine of ten ranges', () => {
  const inside = { hold: 0, fog: 0 }
  const told = { hold: 0, fog: 0 }
  for (let seed = 1; seed <= 200; seed++) {
    const { holdLu, fogLu } = responseOf(screens(60, seed), marks)
    for (const [which, range, truth] of [
      ['hold', holdLu, 20],
      ['fog', fogLu, 60],
    ] as const) {
      if (range === null) continue
      told[which]++
      if (range.low < truth && truth < range.high) inside[which]++
    }
  }
  for (const which of ['hold', 'fog'] as const) {
    expect(told[which]).toBeGreaterThan(150)
    // Two sd of such a count are 4.5 in 100.
    expect(inside[which] / told[which]).toBeGreaterThan(0.83)
    expect(inside[which] / told[which]).toBeLessThan(0.95)
  }
})

describe('readings that cannot tell say nothing', () => {
  test.each([
    ['none at all', []],
    ['fewer than six', screens(5, 1)],
    ['all good', Array.from({ length: 9 }, (_, at) => screen(30 + at, 'good'))],
    [
      'one strip, whose bands part at one dose',
      [20, 25, 30, 35, 42, 50].map((dose) => screen(dose, dose < 29 ? 'washed off' : 'good')),
    ],
    [
      'a curve that falls, or hardly rises',
      [20, 25, 30, 35, 42, 50, 60, 72].map((dose, at) =>
        screen(dose, at % 2 === 0 ? 'washed off' : 'filled'),
      ),
    ],
  ])('%s', (_, evidence) => {
    expect(responseOf(evidence, marks)).toEqual({ holdLu: null, fogLu: null })
  })
})

test('only the medium’s own count, and nothing that is struck out', () => {
  const own = screens(60, 7)
  const others = own.map((each) => ({ ...each, marks: { medium: 'drawing ink' } }) as Kept)
  const struck = own.map((each) => ({ ...each, doseLu: lu(5), struckOut: true }))
  const wedge = { kind: 'wedge', doseLu: lu(60), lastSolidStep: 5 } as unknown as Kept
  expect(responseOf([...own, ...others, ...struck, wedge], { medium: ' Soft  Pencil' })).toEqual(
    responseOf(own, marks),
  )
})

test('the bands of a strip and two ticks count like screens', () => {
  const bands = [20, 24, 30, 36, 43, 52].map((dose, at) => ({
    doseLu: lu(dose),
    grade: at < 2 ? ('washed off' as const) : ('good' as const),
  }))
  const ticked = [
    { ground: 'washed off' },
    { ground: 'sound', marks: 'open' },
    { ground: 'washed off' },
  ] as const
  const told = ticked.map((ticks, at) => {
    return { kind: 'outcome' as const, marks, doseLu: lu(22 + 4 * at), ticks }
  })
  const one = responseOf([{ kind: 'strip', marks, bands }, ...told], marks)
  const single = bands.map(({ doseLu, grade }) => screen(doseLu, grade))
  const plain = [22, 26, 30].map((dose, at) => screen(dose, at === 1 ? 'good' : 'washed off'))
  expect(one.holdLu).toEqual(responseOf([...single, ...plain], marks).holdLu)
})

test('a belief disagrees where its middle is far beyond what both leave open', () => {
  const range = (value: number, times: number) => {
    return { value, low: value / times, high: value * times, confidence: 0.9 }
  }
  expect(disagrees(range(40, 1.2), range(42, 1.2))).toBe(false)
  expect(disagrees(range(40, 1.2), range(62, 1.2))).toBe(true)
  expect(disagrees(range(40, 2), range(62, 1.2))).toBe(false)
  // Half of the 90 % range is 1.645 sd: just at two sd of both together.
  const edge = 10 ** (2 * Math.hypot(Math.log10(1.2) / 1.645, Math.log10(1.3) / 1.645))
  expect(disagrees(range(40, 1.2), range(40 * edge * 1.001, 1.3))).toBe(true)
  near(edge, 1.475, { within: 0.001, because: 'log10 edge: 2 √(0.0481² + 0.0693²) = 0.1687' })
  expect(disagrees(range(40, 1.2), range(40 * edge * 0.999, 1.3))).toBe(false)
})
