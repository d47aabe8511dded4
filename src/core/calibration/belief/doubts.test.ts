import { expect, test } from 'vitest'
import { density, lu } from '../../units/quantity.ts'
import { doubtsAbout } from './doubts.ts'
import type { Band, StripEvidence, WedgeEvidence } from './evidence.ts'

const strip = (...bands: readonly Band[]): StripEvidence => ({
  kind: 'strip',
  marks: { medium: 'soft pencil' },
  bands,
})
const wedge = (lastSolidStep: number, firstClearStep?: number): WedgeEvidence => ({
  kind: 'wedge',
  doseLu: lu(50),
  wedge: { steps: 21, firstDensity: density(0.05), increment: density(0.15) },
  lastSolidStep,
  firstClearStep,
})

test('a strip that goes its way leaves no doubt, in any order of its bands', () => {
  const bands: readonly Band[] = [
    { doseLu: lu(20), grade: 'washed off' },
    { doseLu: lu(28), grade: 'soft' },
    { doseLu: lu(40), grade: 'good' },
    { doseLu: lu(56), grade: 'filling' },
    { doseLu: lu(80), ground: 'sound', marks: 'filled' },
  ]
  expect(doubtsAbout(strip(...bands))).toEqual([])
  expect(doubtsAbout(strip(...bands.toReversed()))).toEqual([])
})

test('soft after filling is possible, for a word says only one of the two', () => {
  const soft: Band = { doseLu: lu(56), ground: 'soft', marks: 'filling' }
  expect(doubtsAbout(strip({ doseLu: lu(40), grade: 'filling' }, soft))).toEqual([])
})

test('a band that contradicts its neighbour is named with both doses', () => {
  const [first = '', ...more] = doubtsAbout(
    strip({ doseLu: lu(40), grade: 'good' }, { doseLu: lu(57), grade: 'washed off' }),
  )
  expect(more).toEqual([])
  expect(first).toBe(
    'The band of 40 lu has the firmer ground, though the band of 57 lu had more light: ' +
      'look at the two again, or strike out the one that was misread.',
  )
  const filled = strip({ doseLu: lu(40), grade: 'filled' }, { doseLu: lu(57), grade: 'good' })
  expect(doubtsAbout(filled).join()).toContain('The band of 40 lu is the more filled')
  const held = strip({ doseLu: lu(40), grade: 'filled' }, { doseLu: lu(57), grade: 'washed off' })
  expect(doubtsAbout(held).join()).toContain('has the firmer ground')
})

test('a wedge cannot be clear where it is solid', () => {
  expect(doubtsAbout(wedge(6, 8))).toEqual([])
  expect(doubtsAbout(wedge(6, 7))).toEqual([])
  expect(doubtsAbout(wedge(6))).toEqual([])
  expect(doubtsAbout(wedge(6, 6))).toEqual([
    'Step 6 cannot be clear when step 6 is still solid: ' +
      'read the wedge again, the clearest step is number 1.',
  ])
  expect(
    doubtsAbout({ kind: 'outcome', marks: { medium: 'x' }, doseLu: lu(1), grade: 'good' }),
  ).toEqual([])
})

test('a reading of a day still to come is doubted where today is known', () => {
  const today = 20_050
  const dated = (day: number): WedgeEvidence => ({ ...wedge(6, 8), day })
  expect(doubtsAbout(dated(today + 0.9), { today })).toEqual([])
  expect(doubtsAbout(dated(today + 1), { today })).toEqual([
    'This reading is dated tomorrow: put down the day on which the screen was exposed.',
  ])
  expect(doubtsAbout({ ...dated(80_353), firstClearStep: 5 }, { today })).toHaveLength(2)
  expect(doubtsAbout(dated(80_353), { today }).join()).toContain('dated 60303 days from now')
  expect(doubtsAbout(dated(80_353))).toEqual([])
})
