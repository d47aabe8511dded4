import { expect, test } from 'vitest'
import { didYouMean, nearest } from './nearest.ts'

const KNOWN = ['forecast', 'dose', 'fabric', 'wedge', 'strip', 'distanceMm']

test.each([
  ['forcast', 'forecast'], // one left out
  ['doze', 'dose'], // one changed
  ['wegde', 'wedge'], // two swapped
  ['stripp', 'strip'], // one too many
  ['distancemm', 'distanceMm'],
  ['FABRIC', 'fabric'],
  ['fore', 'forecast'], // begun
])('%s was meant to be %s', (written, meant) => {
  expect(nearest(written, KNOWN)).toBe(meant)
})

test('what comes near to nothing has no guess', () => {
  expect(nearest('banana', KNOWN)).toBeUndefined()
  expect(nearest('', KNOWN)).toBeUndefined()
  expect(didYouMean('banana', KNOWN)).toBe('')
  expect(didYouMean('doze', KNOWN, '--')).toBe(' Did you mean --dose?')
})
