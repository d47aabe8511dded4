import { describe, expect, test } from 'vitest'
import type { PhotoTest } from '../../../api/photos.ts'
import { EMPTY, NO_GRADE } from '../read/draft.ts'
import { firstWedgeCorners, proposalSays, proposed, stripAsked } from './proposal.ts'

const WEDGE = {
  kind: 'wedge',
  lastSolid: { step: 6, chance: 0.72, low: 5, high: 7 },
  firstClear: { step: 8, chance: 0.5, low: 8, high: 9 },
  left: [],
  warnings: [],
} satisfies PhotoTest

const band = (doseLu: number, grade: 'good' | 'soft', chance: number) => ({
  doseLu,
  grade,
  chance,
  next: { grade: 'filling', chance: 1 - chance } as const,
  left: 1,
  open: 1,
})
const STRIP = {
  kind: 'strip',
  bands: [band(60, 'good', 0.93), band(40, 'soft', 0.45)],
  warnings: [],
} satisfies PhotoTest

describe('what a photo told of a test', () => {
  test('fills the two steps in, and says in the note where they came from, once', () => {
    const first = {
      ...EMPTY,
      ...proposed(WEDGE, { ...EMPTY, note: 'washed long' }),
    }
    expect(first).toMatchObject({ lastSolid: '6', firstClear: '8' })
    expect(first.note).toMatch(
      /^washed long Read from a photo, .*step 6, right 7 times in 10 \(from 5 to 7\)/,
    )
    expect(proposed(WEDGE, first).note).toBe(first.note)
  })

  test('fills grades in by their doses, and leaves open what it cannot tell', () => {
    const bands = ['40', '60', '90'].map((dose) => ({ ...NO_GRADE, dose }))
    const filled = proposed(STRIP, { ...EMPTY, by: 'ticks', bands })
    expect(filled.by).toBe('picture')
    expect(filled.bands?.map(({ grade }) => grade)).toEqual(['', 'good', ''])
    expect(proposalSays(STRIP)).toEqual([
      '40: soft inside or filling in? Say it yourself',
      '60: good, right 9 times in 10',
    ])
  })

  test('is asked with all doses, no two alike, or not at all', () => {
    const asked = (...doses: string[]) =>
      stripAsked(
        { bands: doses.map((dose) => ({ ...NO_GRADE, dose })) },
        { paper: 'a4', marks: 'printed', countsIn: 'light units' },
      )?.bandCounts ?? null
    expect(asked('20', '30,5', '60')).toEqual([20, 30.5, 60])
    expect(asked('20', '', '60')).toBeNull()
    expect(asked('20', '20', '60')).toBeNull()
    expect(asked('20', '60')).toBeNull()
  })
})

test('a wedge is first looked for along the longer side', () => {
  const [a, b, c] = firstWedgeCorners({ widthPx: 300, heightPx: 400 })
  expect(c.y - b.y).toBeGreaterThan(4 * (b.x - a.x) * 0.5)
  expect(b.x).toBeGreaterThan(a.x)
})
