import fc from 'fast-check'
import { expect, test } from 'vitest'
import { Failure } from '../failure.ts'
import { countSheets, expectEdition, sheetsToPrepare } from './sheets.ts'

test('spoiled sheets come off those that were pulled', () => {
  const tallies = [
    { kind: 'pulled', sheets: 40 },
    { kind: 'spoiled', sheets: 1 },
    { kind: 'pulled', sheets: 4 },
  ] as const
  expect(countSheets(tallies)).toEqual({ pulled: 44, spoiled: 1, good: 43 })
  expect(countSheets([{ kind: 'spoiled', sheets: 2 }]).good).toBe(0)
})

test('as many sheets as are expected to be lost layer by layer are prepared beyond the edition', () => {
  // Sheet by sheet: what is left of n after each layer in turn.
  const left = (sheets: number, layers: number): number =>
    Array.from({ length: layers }).reduce<number>((still) => still - still * 0.05, sheets)
  for (const [wanted, layers] of [
    [44, 3],
    [20, 2],
    [250, 6],
  ] as const) {
    const sheets = sheetsToPrepare(wanted, { layers })
    expect(left(sheets, layers)).toBeGreaterThanOrEqual(wanted)
    expect(left(sheets - 1, layers)).toBeLessThan(wanted)
  }
  expect(sheetsToPrepare(40, { layers: 1, spoiledShare: 0 })).toBe(40)
})

test('invariant: more layers or more spoilage never want less paper', () => {
  const share = fc.double({ min: 0, max: 0.5, noNaN: true })
  fc.assert(
    fc.property(
      fc.integer({ min: 0, max: 1000 }),
      fc.integer({ min: 1, max: 9 }),
      share,
      (n, layers, spoiledShare) => {
        const sheets = sheetsToPrepare(n, { layers, spoiledShare })
        expect(sheetsToPrepare(n, { layers: layers + 1, spoiledShare })).toBeGreaterThanOrEqual(
          sheets,
        )
        expect(
          sheetsToPrepare(n, { layers, spoiledShare: spoiledShare + 0.1 }),
        ).toBeGreaterThanOrEqual(sheets)
      },
    ),
  )
})

test('a card cannot give out more prints than came through', () => {
  const card = { numbered: 40, artistProofs: 4, proofs: 1 }
  expect(() => expectEdition(card, 45)).not.toThrow()
  expect(() => expectEdition(card, 44)).toThrow(Failure)
})

test('what is no count of sheets breaks the contract', () => {
  expect(() => sheetsToPrepare(-1, { layers: 1 })).toThrow(RangeError)
  expect(() => sheetsToPrepare(1, { layers: 0 })).toThrow(RangeError)
  expect(() => sheetsToPrepare(1, { layers: 1, spoiledShare: 1 })).toThrow(RangeError)
})
