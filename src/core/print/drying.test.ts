import fc from 'fast-check'
import { expect, test } from 'vitest'
import { near } from '../units/near.testing.ts'
import { layerTime, usualDryMin } from './drying.ts'

/** Minute by minute as one stands there: a sheet is pulled when the press and a shelf are free. */
function watched(sheets: number, pullMin: number, dryMin: number, shelves: number) {
  const wet: number[] = []
  let [free, most, last] = [0, 0, 0]
  for (let sheet = 0; sheet < sheets; sheet++) {
    let now = free
    if (wet.length >= shelves) now = Math.max(now, wet.shift() ?? now)
    while (wet.length > 0 && (wet[0] ?? 0) <= now) wet.shift()
    wet.push(now + dryMin)
    most = Math.max(most, wet.length)
    last = now
    free = now + pullMin
  }
  return { last, most }
}

test('oracle little1961: at a sheet a minute that dries in 24, 25 lie in the rack at the fullest', () => {
  const time = layerTime({ sheets: 60, pullSec: 60, dryMin: 24, shelves: null })
  expect(time).toEqual({ shelvesWanted: 25, pullMin: 60, untilDryMin: 84, waitMin: 0 })
  // on the mean: rate times stay
  near(time.shelvesWanted, 1 * 24, { within: 1, because: 'the fullest moment, not the mean' })
})

test('oracle little1961: a rack too small makes the press wait, as one who stands there sees it', () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 1, max: 60 }),
      fc.integer({ min: 1, max: 4 }),
      fc.integer({ min: 1, max: 40 }),
      fc.integer({ min: 1, max: 30 }),
      (sheets, pull, dryMin, shelves) => {
        const time = layerTime({ sheets, pullSec: 60 * pull, dryMin, shelves })
        const seen = watched(sheets, pull, dryMin, shelves)
        near(time.pullMin, seen.last + pull, { within: 1e-9, because: 'whole minutes' })
        const free = watched(sheets, pull, dryMin, 1e6)
        expect(free.most).toBeLessThanOrEqual(time.shelvesWanted)
        if (shelves >= time.shelvesWanted) expect(time.waitMin).toBeLessThan(1e-9)
      },
    ),
    { seed: 2 },
  )
})

test('a thick film dries longer than a thin one, to five minutes', () => {
  expect(usualDryMin(22)).toBe(20)
  expect(usualDryMin(48)).toBe(50)
  expect(usualDryMin(0)).toBe(10)
})
