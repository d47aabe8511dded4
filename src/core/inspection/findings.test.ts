import { describe, expect, test } from 'vitest'
import { near } from '../units/near.testing.ts'
import { type Difference, type Finding, inOrderOfWork, kindOf, lengthAndWidth } from './findings.ts'
import { verdictOf } from './verdict.ts'

const SPOT: Difference = {
  sign: 'open',
  areaMm2: 0.8,
  lengthUm: 1000,
  widthUm: 1000,
  edgeShare: 0,
  seenShare: 1,
}

describe('what a printmaker calls it', () => {
  test.each<readonly [string, Partial<Difference>, Finding['kind']]>([
    ['a hole in plain ground', {}, 'pinhole'],
    ['a hole that opens into a mark', { edgeShare: 0.3 }, 'broken edge'],
    ['a long thin line', { lengthUm: 9000, widthUm: 500 }, 'scratch'],
    [
      'a long line that crosses a mark',
      { lengthUm: 9000, widthUm: 500, edgeShare: 0.2 },
      'scratch',
    ],
    ['a line along a mark', { lengthUm: 9000, widthUm: 500, edgeShare: 0.6 }, 'broken edge'],
    ['a hole as large as a thumb', { areaMm2: 150, lengthUm: 15e3, widthUm: 10e3 }, 'missing area'],
    ['no light through a mark', { sign: 'shut', seenShare: 0.05 }, 'blocked'],
    ['half the light through a mark', { sign: 'shut', seenShare: 0.5 }, 'veil'],
  ])('%s', (_, but, kind) => {
    expect(kindOf({ ...SPOT, ...but })).toBe(kind)
  })
})

describe('length and width from area and outline', () => {
  test('of a strip 12 by 0.5', () => {
    const { length, width } = lengthAndWidth(6, 25)
    near(length, 12, { within: 1e-9, because: 'a rectangle is the rule itself' })
    near(width, 0.5, { within: 1e-9, because: 'a rectangle is the rule itself' })
  })

  test('of a disc: its diameter, both ways', () => {
    const { length, width } = lengthAndWidth(Math.PI, 2 * Math.PI)
    near(length, 2, { within: 1e-9, because: 'no rectangle has so little outline' })
    near(width, 2, { within: 1e-9, because: 'no rectangle has so little outline' })
  })
})

describe('what to do next', () => {
  const found = (kind: Finding['kind'], areaMm2 = 1): Finding => ({
    kind,
    xMm: 10,
    yMm: 10,
    areaMm2,
    widthUm: 800,
  })

  test('nothing found is good', () => {
    expect(verdictOf([])).toBe('good')
  })

  test('a skin is washed on, even beside pinholes', () => {
    expect(verdictOf([found('pinhole'), found('veil')])).toBe('wash more')
  })

  test('holes and scratches are spotted, and so is a small broken edge', () => {
    expect(verdictOf([found('scratch'), found('pinhole')])).toBe('spot it')
    expect(verdictOf([found('broken edge')])).toBe('spot it')
  })

  test('gone ground is not washed on, however much is still shut', () => {
    expect(verdictOf([found('blocked', 90), found('missing area', 30)])).toBe('make again')
    expect(verdictOf([found('broken edge', 7)])).toBe('make again')
  })

  test('what opens while wet stands before what waits for a dry screen, larger before smaller', () => {
    const edge = found('broken edge', 4)
    const order = inOrderOfWork([found('pinhole'), edge, found('veil', 2), found('veil', 5)])
    expect(order.map(({ kind, areaMm2 }) => [kind, areaMm2])).toEqual([
      ['veil', 5],
      ['veil', 2],
      ['broken edge', 4],
      ['pinhole', 1],
    ])
  })
})
