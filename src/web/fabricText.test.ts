import { expect, test } from 'vitest'
import { fabricChoices, fabricText } from './fabricText.ts'

test('where inches are counted a fabric is named by its threads an inch too', () => {
  expect(fabricText('90-48 yellow', 'metric')).toBe('90-48 yellow')
  // 90 · 2.54 = 228.6, 43 · 2.54 = 109.2
  expect(fabricText('90-48 yellow', 'imperial')).toBe('90-48 (229 per inch) yellow')
  expect(fabricText('screen 14, 43-80 white, the open bucket', 'imperial')).toBe(
    'screen 14, 43-80 (109 per inch) white, the open bucket',
  )
  expect(fabricText('mixed 2026-11-28', 'imperial')).toBe('mixed 2026-11-28')
})

test('choices keep their ids, and what stands beside them speaks of inches too', () => {
  const screen = { id: 's14', name: 'screen 14', about: '90-48 yellow', not: null }
  expect(fabricChoices([screen], 'imperial')).toEqual([
    { ...screen, about: '90-48 (229 per inch) yellow' },
  ])
  expect(fabricChoices([screen], 'metric')).toEqual([screen])
})
