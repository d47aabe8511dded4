import { expect, test } from 'vitest'
import type { Kept } from '../../core/calibration/belief/replay.ts'
import { density, lu } from '../../core/units/quantity.ts'
import { evidenceChain } from './evidenceChain.ts'

const SHOP = { usualBaseDensity: density(0.15), secondsUnits: [] }
const screen = (day: number | undefined, doseLu: number): Kept => {
  const marks = { medium: 'soft pencil' }
  return { kind: 'outcome', day, marks, doseLu: lu(doseLu), grade: 'good' }
}

const MANY: readonly Kept[] = [3, undefined, 1, 3, 9].map((day, at) => screen(day, 40 + at))

test.each<readonly [string, readonly Kept[]]>([
  ['the same', MANY],
  ['one more today', [...MANY, screen(9, 41)]],
  ['one of long ago', [...MANY, screen(2, 41)]],
  ['one without a date', [screen(undefined, 50), ...MANY]],
  ['one struck out', MANY.map((each, at) => (at === 2 ? { ...each, struckOut: true } : each))],
  ['the newest day gone', MANY.slice(0, -1)],
])('links taken over from an older chain are those of a new one: %s', (_, now) => {
  const before = evidenceChain(MANY, { shop: SHOP })
  expect(evidenceChain(now, { shop: SHOP, before })).toEqual(evidenceChain(now, { shop: SHOP }))
})

test('another shop, or another way of reckoning, takes no link over', () => {
  const before = evidenceChain(MANY, { shop: SHOP, way: 'a' })
  const keys = new Set(before.links.map(({ key }) => key))
  const others = [
    { shop: { ...SHOP, secondsUnits: ['small lamp'] }, way: 'a' },
    { shop: SHOP, way: 'b' },
  ]
  for (const other of others) {
    const { links } = evidenceChain(MANY, { ...other, before })
    expect(links.filter(({ key }) => keys.has(key))).toEqual([])
    expect(links.map(({ day }) => day)).toEqual([null, 1, 3, 9])
  }
})
