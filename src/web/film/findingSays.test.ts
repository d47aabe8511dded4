import { describe, expect, test } from 'vitest'
import type { Finding } from '../../api/films.ts'
import {
  fateOf,
  findingName,
  findingSays,
  lengthText,
  shareSays,
  troubleSays,
} from './findingSays.ts'

const DOSES = { gelDoseLu: 20, holdDoseLu: 36, throughDoseLu: 160 }
const finding = (opensUpToLu: number, more: Partial<Finding> = {}): Finding => ({
  number: 1,
  xMm: 20,
  yMm: 270,
  widthUm: 350,
  density: 0.9,
  effectiveDensity: 0.7,
  opensUpToLu,
  ...more,
})
const at = (doseLu: number) => ({ doseLu, doses: DOSES, holdsFromLu: 38 })

test('a mark opens up to its dose; then its skin thickens until it is shut', () => {
  const mark = finding(45)
  const fates = [44, 45, 46, 80, 82, 359, 361].map((doseLu) => fateOf(mark, at(doseLu)))
  expect(fates).toEqual(['opens', 'opens', 'veiled', 'veiled', 'soft', 'soft', 'closed'])
})

describe('what a finding says', () => {
  test('open: from where on it closes', () => {
    expect(findingSays(finding(45), at(42))).toEqual({
      says: 'Opens. It begins to close above 45.',
      act: null,
    })
  })

  test('no dose opens it while the ground holds: go over it', () => {
    const { says, act } = findingSays(finding(31), at(42))
    expect(says).toContain('No dose opens it and hardens the ground.')
    expect(act).toBe('Go over it once more.')
  })

  test('a smaller dose would do: which', () => {
    expect(findingSays(finding(40), at(46)).act).toContain('40')
  })
})

test('its name says where it is and what it is like', () => {
  const film = { widthMm: 210, heightMm: 297, pixelUm: 35 }
  expect(findingName(finding(45), film, 'metric')).toBe('Lower left, lines about 0.35 mm wide')
  expect(findingName(finding(45, { xMm: 105, yMm: 150, widthUm: 60 }), film, 'metric')).toBe(
    'In the middle, pale grain',
  )
  expect(findingName(finding(45, { xMm: 190, yMm: 150, widthUm: 5000 }), film, 'metric')).toBe(
    'Right, a broad tone',
  )
  expect(findingName(finding(45), film, 'imperial')).toBe('Lower left, lines about 0.014 inch wide')
})

test('a strong line a pixel wide is a hairline, not grain', () => {
  const film = { widthMm: 297, heightMm: 420, pixelUm: 35 }
  expect(findingName(finding(45, { widthUm: 71, density: 3.7 }), film, 'metric')).toMatch(
    /, hairlines$/,
  )
})

test('the sentence says how much opens, and never all while something is in doubt', () => {
  const along = [20, 30, 41, 44, 50, 60, 70, 80, 90]
  expect(shareSays(along, [], 19)).toBe('All of it')
  expect(shareSays(along, [finding(18)], 19)).toBe('Nearly all of it')
  expect(shareSays(along, [], 42)).toBe('Most of it')
  expect(shareSays(along, [], 55)).toBe('About half of it')
  expect(shareSays(along, [], 95)).toBe('Nothing of it')
})

test('and what is the matter', () => {
  expect(troubleSays([finding(45)], at(42))).toBe('')
  expect(troubleSays([finding(30), finding(31), finding(45)], at(42))).toBe(
    'Two passages are too pale to open while the rest hardens.',
  )
  expect(troubleSays([finding(40)], at(42))).toBe('One passage is in doubt at this dose.')
  expect(troubleSays([], at(30))).toBe('The ground would wash away: too little light.')
})

test('lengths as people write them', () => {
  expect(['metric', 'imperial'].map((units) => lengthText(297, units as 'metric'))).toEqual([
    '297 mm',
    '11.7 inch',
  ])
  expect(lengthText(0.0706, 'metric')).toBe('0.07 mm')
  expect(lengthText(4.25, 'metric')).toBe('4.3 mm')
})
