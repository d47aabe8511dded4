import { describe, expect, test } from 'vitest'
import { density, lu } from '../../units/quantity.ts'
import { outlookOn, type Question } from './question.ts'
import { reasonsFor, stopWords } from './reasons.ts'
import { recommendedDose } from './recommend.ts'
import { type Kept, type Replay, replay } from './replay.ts'
import { type Sureness, surenessOf } from './sureness.ts'

const SHOP = { usualBaseDensity: density(0.15), secondsUnits: [] }
const WEDGE = { steps: 21, firstDensity: density(0.05), increment: density(0.15) }
const WHERE = { unit: 'big lamp', emulsion: 'A1', fabric: '90-48', recipe: 'house' }
const PENCIL = { marks: [{ medium: 'soft pencil' }] }

const wedge = (day: number, lastSolidStep = 6, more: Partial<Kept> = {}): Kept =>
  ({ kind: 'wedge', doseLu: lu(58), wedge: WEDGE, lastSolidStep, day, ...WHERE, ...more }) as Kept
const screen = (day: number, more: Partial<Kept> = {}): Kept =>
  ({
    kind: 'outcome',
    ...PENCIL,
    marks: PENCIL.marks[0],
    doseLu: lu(38),
    grade: 'good',
    day,
    ...WHERE,
    ...more,
  }) as Kept
const strip = (day: number): Kept => ({
  kind: 'strip',
  marks: { medium: 'soft pencil' },
  bands: [20, 28, 39, 55, 77].map((dose, at) => ({
    doseLu: lu(dose),
    grade: (['soft', 'good', 'good', 'filling', 'filled'] as const)[at],
  })),
  day,
  ...WHERE,
})
const after = (evidence: readonly Kept[]): Replay => replay(evidence, { shop: SHOP })
const said = ({ belief, days }: Replay, question: Question): readonly string[] =>
  reasonsFor(belief, question, { days }).map(({ sentence }) => sentence)

describe('reasons name what was read, and what nobody has tried', () => {
  test('nothing at all', () => {
    expect(said(after([]), { marks: [{ medium: 'Printed film' }], ...WHERE })).toEqual([
      'A first guess: nobody has told us yet how printed film comes out here.',
    ])
  })

  test('a wedge twelve days ago and a new bucket', () => {
    const question = { ...PENCIL, ...WHERE, emulsion: 'B2', day: 20 }
    expect(said(after([wedge(3), strip(5), screen(6), wedge(8)]), question)).toEqual([
      'One screen and one strip in soft pencil stand behind this, the newest 14 days ago.',
      'Last wedge 12 days ago.',
      'This bucket is new: expect plus or minus a third of a stop.',
    ])
  })

  test('a medium nobody has told us about, dyed cloth, paper', () => {
    const question = {
      marks: [{ medium: 'soft pencil' }, { medium: 'laser toner' }],
      ...WHERE,
      fabric: '77-55',
      dyed: true,
      baseDensity: density(0.35),
      day: 8,
    }
    expect(said(after([wedge(7), screen(7), screen(8)]), question)).toEqual([
      '2 screens in soft pencil stand behind this, the newest today.',
      'A first guess: nobody has told us yet how laser toner comes out here.',
      'Last wedge yesterday.',
      'This fabric is new to us: expect about 1.5 times the light, plus or minus half a stop.',
      'This film base dims the lamp more than the usual one: every dose is 1.6 times as large.',
    ])
  })

  test('another lamp, a film that was read, a long silence', () => {
    const question = {
      marks: [{ density: density(0.874), densitySd: density(0.05) }],
      ...WHERE,
      unit: 'tubes',
      day: 50,
    }
    expect(said(after([wedge(2), screen(5)]), question)).toEqual([
      'This film was read: its weakest mark counts as 0.87 D.',
      'Nothing has been read under this lamp yet: expect plus or minus two thirds of a stop.',
      'Nothing has been read for 45 days: the lamp may have moved on.',
    ])
  })

  test('this very screen and film', () => {
    const own = { screen: '14', film: 'reeds' }
    const replayed = after([wedge(3, 6, own), screen(3, own), screen(4)])
    const told = said(replayed, { ...PENCIL, ...WHERE, ...own, day: 4 })
    expect(told).toContain('There is a wedge on this very screen.')
    expect(told).toContain('This film has been on a screen before.')
  })

  test('a sudden change, while it is news', () => {
    const steady = [0, 7, 14, 21].flatMap((day) => [wedge(day), wedge(day, 6, { screen: 'a' })])
    const sudden = [3, 3, 3].map((step, at) => wedge(28, step, { screen: `${at}` }))
    const replayed = after([...steady, ...sudden])
    const told = said(replayed, { ...PENCIL, ...WHERE, day: 30 })
    const [change = ''] = told.filter((sentence) => sentence.startsWith('Something changed'))
    expect(change).toMatch(
      /^Something changed before the readings of 2 days ago: the ground wants more light, about 2\.\d times as much\.$/,
    )
    expect(said(replayed, { ...PENCIL, ...WHERE, day: 59 }).join()).not.toContain(
      'Something changed',
    )
  })
})

test('a distance in stops, as printers say it', () => {
  // A stop doubles the light: 0.30103 D. A batch differs by 1.645 · 0.06 D, a third of that.
  expect(stopWords(1.645 * 0.06)).toBe('a third of a stop')
  expect(stopWords(0.301)).toBe('a whole stop')
  expect(stopWords(0.15)).toBe('half a stop')
  expect(stopWords(9)).toBe('two stops')
})

describe('the word beside a dose', () => {
  const wordOf = (replayed: Replay, question: Question): Sureness =>
    surenessOf(replayed.belief, question, recommendedDose(outlookOn(replayed.belief, question)))
  const question = { ...PENCIL, ...WHERE, day: 9 }

  test('a good chance alone is a first guess', () => {
    const cut = { marks: [{ medium: 'cut masking film' }], ...WHERE }
    const { belief } = after([])
    expect(recommendedDose(outlookOn(belief, cut)).screensInTen).toBe(9)
    expect(wordOf(after([]), cut)).toBe('a first guess')
  })

  test('one screen is hardly a reading, two are, and so is one strip', () => {
    const words = (evidence: readonly Kept[]): Sureness =>
      surenessOf(after(evidence).belief, question, { screensInTen: 7 })
    expect(words([screen(8)])).toBe('a first guess')
    expect(words([screen(8), screen(9)])).toBe('fairly sure')
    expect(words([strip(8)])).toBe('fairly sure')
  })

  test('the word follows the number of good screens in ten', () => {
    const { belief } = after([strip(8), screen(9)])
    const words = [10, 9, 8, 7, 6, 5, 4].map((screensInTen) =>
      surenessOf(belief, question, { screensInTen }),
    )
    expect(words).toEqual([
      'sure',
      'sure',
      'fairly sure',
      'fairly sure',
      'in doubt',
      'in doubt',
      'a first guess',
    ])
  })

  test('a film that was read needs no word on its medium, only one on its lamp', () => {
    const read = { marks: [{ density: density(1.9), densitySd: density(0.05) }], ...WHERE, day: 9 }
    expect(wordOf(after([]), read)).toBe('a first guess')
    expect(wordOf(after([wedge(7), wedge(8), strip(8)]), read)).toBe('sure')
  })
})
