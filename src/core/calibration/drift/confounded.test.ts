import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { density, lu } from '../../units/quantity.ts'
import type { Circumstances } from '../belief/evidence.ts'
import type { Kept } from '../belief/replay.ts'
import { confounded } from './confounded.ts'

const words = { nameOf: (_: string, name: string): string => name }
const wedge = (where: Circumstances): Kept => ({
  kind: 'wedge',
  doseLu: lu(60),
  wedge: { steps: 21, firstDensity: density(0.05), increment: density(0.15) },
  lastSolidStep: 6,
  ...where,
})
const wedges = (all: readonly Circumstances[]): readonly Kept[] =>
  all.map((where, day) => wedge({ day, ...where }))

describe('a lamp and a bucket that changed on one day', () => {
  const before = { unit: 'the big unit', emulsion: 'the old bucket', lampHours: 700 }
  const after = { unit: 'the big unit', emulsion: 'the new bucket', lampHours: 2 }

  test('cannot be told apart; the old bucket under the new lamp would tell', () => {
    const [found, ...more] = confounded(wedges([before, before, after]), { words })
    expect(more).toEqual([])
    expect(found).toEqual({
      kinds: ['unit', 'batch'],
      sentence:
        'Whether the old and the new light of the big unit differ, or the old bucket and the new bucket do, cannot be told: no test has crossed them.',
      cross: { unit: 'the big unit', emulsion: 'the old bucket' },
      test: 'Wedge one screen coated from the old bucket under the big unit.',
    })
  })

  test('once that is read nothing is left, and not while it is struck out or only a screen', () => {
    const crossed = { ...after, emulsion: 'the old bucket', day: 9 }
    const told = wedges([before, after])
    expect(confounded([...told, wedge(crossed)], { words })).toEqual([])
    const struck = { ...wedge(crossed), struckOut: true }
    expect(confounded([...told, struck], { words })).toHaveLength(1)
    const marks = { medium: 'drawing ink' }
    const screen: Kept = { ...crossed, kind: 'outcome', marks, doseLu: lu(60), grade: 'good' }
    expect(confounded([...told, screen], { words })).toHaveLength(1)
  })

  test('with the old bucket used up nothing can tell any more', () => {
    const isThere = (_: string, name: string): boolean => name !== 'the old bucket'
    expect(confounded(wedges([before, after]), { words, isThere })).toEqual([])
  })

  test('where nobody counts hours, the day on which the lamp was fitted says the same', () => {
    const fitted = [{ emulsion: 'the old bucket' }, { emulsion: 'the new bucket', lampFitted: 1 }]
    const [found] = confounded(wedges(fitted), { words })
    expect(found?.kinds).toEqual(['unit', 'batch'])
    const same = fitted.map((where) => ({ ...where, lampFitted: 1 }))
    expect(confounded(wedges(same), { words })).toEqual([])
  })

  test('a lamp that only burned on is the same lamp', () => {
    const later = { ...after, lampHours: 720 }
    expect(confounded(wedges([before, later]), { words })).toEqual([])
  })
})

test('two units that never met on one fabric: one wedge crosses them, like the newest set-up but one', () => {
  const [found] = confounded(
    wedges([
      { unit: 'the small unit', fabric: '120-34' },
      { unit: 'the big unit', fabric: '90-48' },
    ]),
    { words },
  )
  expect(found?.kinds).toEqual(['unit', 'fabric'])
  expect(found?.sentence).toMatch(/^Whether the small unit and the big unit differ, or 120-34 and/)
  expect(found?.test).toBe('Wedge one screen of 120-34 under the big unit.')
})

test('things that meet two by two, and still cannot be told apart, for three differ at once', () => {
  const three = wedges([
    { unit: 'A', emulsion: 'x', fabric: '2' },
    { unit: 'A', emulsion: 'y', fabric: '1' },
    { unit: 'B', emulsion: 'x', fabric: '1' },
  ])
  // Three tests and four unknowns: the usual one, and what each second thing differs by.
  expect(confounded(three, { words })).toHaveLength(1)
  const four = [...three, wedge({ unit: 'A', emulsion: 'x', fabric: '1' })]
  expect(confounded(four, { words })).toEqual([])
})

test('invariant: oracle estimable-contrast: with two kinds it takes one crossing less than there are islands', () => {
  const place = fc.record({ unit: fc.constantFrom(...'ABCD'), fabric: fc.constantFrom(...'1234') })
  fc.assert(
    fc.property(fc.array(place, { minLength: 1, maxLength: 9 }), (places) => {
      const found = confounded(wedges(places), { words })
      expect(found).toHaveLength(islandsOf(places).length - 1)
      const crossed = [...places, ...found.map(({ cross }) => cross)]
      expect(confounded(wedges(crossed), { words })).toEqual([])
    }),
    { seed: 4, numRuns: 200 },
  )
})

/** Groups of names that hang together by the places where two of them met. */
function islandsOf(places: readonly Readonly<{ unit: string; fabric: string }>[]) {
  let islands: readonly Set<string>[] = []
  for (const { unit, fabric } of places) {
    const touched = islands.filter((island) => island.has(unit) || island.has(fabric))
    const joined = new Set([unit, fabric, ...touched.flatMap((island) => [...island])])
    islands = [...islands.filter((island) => !touched.includes(island)), joined]
  }
  return islands
}

test('nothing read, nothing in doubt', () => {
  expect(confounded([], { words })).toEqual([])
})
