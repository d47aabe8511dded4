import { expect, test } from 'vitest'
import type { ScreenFault, ScreenFinding } from '../../api/photos.ts'
import { faultGroups, gradeSuggested, windowOn } from './faultGroups.ts'

function fault(number: number, kind: ScreenFault, place = {}): ScreenFinding {
  return { number, kind, xMm: 100, yMm: 80, areaMm2: 1, widthUm: 1000, ...place }
}

test('faults of a kind stand together with the numbers of the list, the kind of the worst first', () => {
  const groups = faultGroups([
    fault(1, 'blocked'),
    fault(2, 'pinhole'),
    fault(3, 'blocked'),
    fault(4, 'pinhole'),
  ])
  expect(groups.map(({ kind, findings }) => [kind, findings.map((each) => each.number)])).toEqual([
    ['blocked', [1, 3]],
    ['pinhole', [2, 4]],
  ])
  expect(faultGroups([])).toEqual([])
})

test('a window stands round its fault, stays on the film, and is never too small to see into', () => {
  const film = { widthMm: 200, heightMm: 150 }
  expect(windowOn(fault(1, 'pinhole'), film)).toEqual({ xMm: 95.5, yMm: 75.5, sideMm: 9 })
  const low = fault(1, 'pinhole', { xMm: 1, yMm: 149 })
  expect(windowOn(low, film)).toEqual({ xMm: 0, yMm: 141, sideMm: 9 })
  const large = fault(1, 'missing area', { areaMm2: 20_000, widthUm: 100_000 })
  expect(windowOn(large, film).sideMm).toBe(150)
  const scratch = fault(1, 'scratch', { areaMm2: 20, widthUm: 500 })
  expect(windowOn(scratch, film).sideMm).toBe(72) // 20 mm² over 0.5 mm: 40 mm long at most
})

test('what is open counts as good, what is to be washed says nothing yet, what is lost or shut says so', () => {
  expect(gradeSuggested({ verdict: 'good', findings: [] })).toBe('good')
  expect(gradeSuggested({ verdict: 'wash more', findings: [fault(1, 'blocked')] })).toBeNull()
  const both = [fault(1, 'missing area', { areaMm2: 40 }), fault(2, 'blocked', { areaMm2: 30 })]
  expect(gradeSuggested({ verdict: 'make again', findings: both })).toBe('washed off')
  expect(gradeSuggested({ verdict: 'make again', findings: both.slice(1) })).toBe('filled')
})
