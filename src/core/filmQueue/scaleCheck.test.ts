import { expect, test } from 'vitest'
import { near } from '../units/near.testing.ts'
import { checkScale } from './scaleCheck.ts'

const check = (measuredMm: number, filmMm: number | null = null) =>
  checkScale({ barMm: 100, measuredMm, filmMm })

test('a quarter of a millimetre is what a ruler can tell; a film of 420 mm may hide a whole one', () => {
  expect([check(100).is, check(99.75).is, check(100.25).is]).toEqual(['true', 'true', 'true'])
  expect([check(99.7).is, check(100.3).is]).toEqual(['off', 'off'])
  expect(check(100, 420).overFilm).toEqual({ longMm: 420, offMm: 0, unseenMm: 1.05 })
})

test('oracle iso216: an A4 page fitted on Letter is 94.1 % of itself, a Letter page on A4 97.3 %', () => {
  // 279.4 mm of Letter over 297 mm of A4; 210 over 215.9
  expect(check(94.1).likely).toBe('fitted to another paper')
  expect(check(97.25).likely).toBe('fitted to another paper')
  expect(check(95.5).likely).toBe('fitted to the page')
})

test('half a percent is the feed: over 420 mm it is 2.1 mm, and 100.5 % put it right', () => {
  const { likely, overFilm, setPercent } = check(99.5, 420)
  expect(likely).toBe('the feed')
  near(overFilm?.offMm ?? 0, -2.1, { within: 1e-9, because: '420 mm times -0.005' })
  near(setPercent * 0.995, 100, { within: 1e-9, because: 'it undoes what was off' })
})

test('both ways measured: alike is a matter of scale, apart is a sheet that was stretched', () => {
  const both = (along: number, across: number, acrossBarMm = 100) =>
    checkScale({
      barMm: 100,
      measuredMm: along,
      across: { barMm: acrossBarMm, measuredMm: across },
      filmMm: 300,
    })
  expect(check(100).ways).toBeNull()
  expect(both(99.9, 100.1)).toMatchObject({ is: 'true', ways: { are: 'alike' } })
  const small = both(99, 198, 200)
  expect(small).toMatchObject({ is: 'off', ways: { are: 'alike' } })
  near(small.setPercent, 100 / 0.99, { within: 1e-9, because: 'both are 1 in 100 too small' })
  // by hand: what two readings of a quarter of a millimetre over 100 mm tell apart is 0.354 mm
  expect(both(100.34, 100).ways?.are).toBe('alike')
  expect(both(100.36, 100).ways?.are).toBe('stretched along')
  expect(both(100, 100.36).ways?.are).toBe('stretched across')
  const stretched = both(100, 99).ways
  near((stretched?.alongShare ?? 0) - (stretched?.acrossShare ?? 0), 0.01, {
    within: 1e-9,
    because: 'one in a hundred',
  })
  expect(() => both(100, 0)).toThrow(RangeError)
})

test('a bar that cannot be is refused', () => {
  expect(() => checkScale({ barMm: 0, measuredMm: 100, filmMm: null })).toThrow(RangeError)
  expect(() => check(Number.NaN)).toThrow(RangeError)
})
