import fc from 'fast-check'
import { expect, test } from 'vitest'
import { ciede2000 } from '../colour/ciede2000.ts'
import { labFromXyz50, WHITE_D50 } from '../colour/lab.ts'
import type { Lab } from '../colour/space.ts'
import { near } from '../units/near.testing.ts'
import { inkRecipe, type StockInk } from './inkRecipe.ts'
import { mixedLab, reflectanceOf, swallowedToScattered, swallowingOf } from './kubelkaMunk.ts'

const WHITE: StockInk = { id: 'white', lab: [95, 0, 2], grams: 2000 }
const BLACK: StockInk = { id: 'black', lab: [16, 0, 0], grams: 900 }
const YELLOW: StockInk = { id: 'yellow', lab: [86, 2, 88], grams: 700 }
/** The solid of a process cyan. */
const BLUE: StockInk = { id: 'blue', lab: [55, -37, -50], grams: 600 }
const RED: StockInk = { id: 'red', lab: [46, 62, 34], grams: 500 }
const STOCK = [WHITE, BLACK, YELLOW, BLUE, RED]

test('oracle kubelka-munk1931: half the light back is K/S of a quarter, and the way back', () => {
  near(swallowedToScattered(0.5), 0.25, { within: 1e-12, because: '0.5² / 1' })
  near(swallowedToScattered(0.2), 1.6, { within: 1e-12, because: '0.64 / 0.4' })
  near(reflectanceOf(1.6), 0.2, { within: 1e-12, because: '2.6 − √(2.56 + 3.2)' })
  expect(reflectanceOf(0)).toBe(1)
})

test('oracle css-color4: paper as white as D50 is 1 in each band, so it swallows nothing', () => {
  for (const q of swallowingOf(labFromXyz50(WHITE_D50))) {
    near(q, 0, { within: 1e-6, because: 'the matrix’s rows end at 1' })
  }
})

test('oracle duncan1940: greys of one K/S mix along a line: 1 part of black in 4 of white', () => {
  const [white, black] = [0.9, 0.05]
  const grey = (y: number): Lab =>
    labFromXyz50([y * WHITE_D50[0], y * WHITE_D50[1], y * WHITE_D50[2]])
  const lab = mixedLab([
    { swallowing: swallowingOf(grey(white)), share: 0.8 },
    { swallowing: swallowingOf(grey(black)), share: 0.2 },
  ])
  // K/S: 0.8 · 0.1²/1.8 + 0.2 · 0.95²/0.1 = 1.80944; R = 2.80944 − √(3.27408 + 3.61889)
  const [l, a, b] = grey(2.809444 - Math.sqrt(1.809444 ** 2 + 2 * 1.809444))
  near(lab[0], l, { within: 0.01, because: 'by hand to six digits' })
  near(lab[1], a, { within: 0.01, because: 'grey stays grey' })
  near(lab[2], b, { within: 0.01, because: 'grey stays grey' })
})

test('oracle process-solids: yellow and cyan make a green, darker than the yellow', () => {
  const [l, a, b] = mixedLab([
    { swallowing: swallowingOf(YELLOW.lab), share: 0.8 },
    { swallowing: swallowingOf(BLUE.lab), share: 0.2 },
  ])
  expect(a).toBeLessThan(-25)
  expect(b).toBeGreaterThan(10)
  expect(l).toBeLessThan(80)
})

test('an ink that is on the shelf is its own recipe, as long as there is enough of it', () => {
  const own = inkRecipe(RED.lab, { stock: STOCK, grams: 200 })
  expect(own?.parts).toEqual([{ id: 'red', grams: 200 }])
  expect(own?.deltaE).toBeLessThan(0.01)
  const short = inkRecipe(RED.lab, { stock: STOCK, grams: 800 })
  expect(short?.parts.find(({ id }) => id === 'red')?.grams ?? 0).toBeLessThanOrEqual(500.001)
  expect(short?.deltaE).toBeGreaterThan(0.5)
  expect(inkRecipe(RED.lab, { stock: STOCK, grams: 9000 })).toBeNull()
})

test('of a few grams no ink is asked for of which less than a gram would have to be weighed', () => {
  const of = [RED, YELLOW, BLUE].map(({ lab }) => ({ swallowing: swallowingOf(lab), share: 1 / 3 }))
  for (const grams of [1, 2, 3, 5, 7]) {
    const parts = inkRecipe(mixedLab(of), { stock: STOCK, grams })?.parts ?? []
    expect(parts.length).toBeGreaterThan(0)
    expect(Math.min(...parts.map((part) => part.grams))).toBeGreaterThanOrEqual(1 - 1e-9)
  }
})

test('invariant: a mixture of two inks is found again, within what can be weighed and seen', () => {
  const inks = fc.uniqueArray(fc.integer({ min: 0, max: 4 }), { minLength: 2, maxLength: 2 })
  fc.assert(
    fc.property(
      inks,
      fc.double({ min: 0.05, max: 0.95, noNaN: true }),
      ([one = 0, two = 1], part) => {
        const of = [STOCK[one] ?? WHITE, STOCK[two] ?? BLACK]
        const target = mixedLab(
          of.map(({ lab }, at) => ({
            swallowing: swallowingOf(lab),
            share: at === 0 ? part : 1 - part,
          })),
        )
        const recipe = inkRecipe(target, { stock: STOCK, grams: 300 })
        expect(recipe?.deltaE ?? 99).toBeLessThan(1)
        const grams = recipe?.parts.reduce((sum, each) => sum + each.grams, 0) ?? 0
        near(grams, 300, { within: 1e-6, because: 'all of it' })
        expect(ciede2000(target, recipe?.lab ?? [0, 0, 0])).toBe(recipe?.deltaE)
      },
    ),
    { seed: 11, numRuns: 25 },
  )
})

test('four inks of five are found again, nearer than any three on a grid of twentieths come', () => {
  const of = [WHITE, BLACK, YELLOW, RED]
  const shares = [0.55, 0.05, 0.25, 0.15]
  const parts = of.map(({ lab }, at) => ({
    swallowing: swallowingOf(lab),
    share: shares[at] ?? 0,
  }))
  const target = mixedLab(parts)
  const recipe = inkRecipe(target, { stock: STOCK, grams: 300 })
  expect(recipe?.deltaE).toBeLessThan(0.5)
  // every three of the shelf, every share of a twentieth: brute force, no search
  const three = nearestOfThree(target, STOCK)
  expect(recipe?.deltaE ?? 99).toBeLessThan(three)
  expect(three).toBeGreaterThan(1)
  expect(recipe?.parts.length).toBe(4)
  // an ink that brings nothing stays on the shelf: three inks of the shelf are told as three
  const plain = mixedLab(parts.slice(0, 3).map((part) => ({ ...part, share: 1 / 3 })))
  expect(inkRecipe(plain, { stock: STOCK, grams: 300 })?.parts.length).toBeLessThanOrEqual(3)
})

/** The least CIEDE2000 that three inks come to on a grid of shares. */
function nearestOfThree(target: Lab, stock: readonly StockInk[]): number {
  const swallowing = stock.map(({ lab }) => swallowingOf(lab))
  let least = Number.POSITIVE_INFINITY
  const steps = 20
  for (const [at, one] of swallowing.entries()) {
    for (const [next, two] of swallowing.entries()) {
      for (const three of swallowing.slice(next + 1)) {
        if (next <= at) continue
        for (let first = 0; first <= steps; first++) {
          for (let second = 0; first + second <= steps; second++) {
            const lab = mixedLab([
              { swallowing: one, share: first / steps },
              { swallowing: two, share: second / steps },
              { swallowing: three, share: (steps - first - second) / steps },
            ])
            least = Math.min(least, ciede2000(target, lab))
          }
        }
      }
    }
  }
  return least
}
