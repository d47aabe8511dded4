import { expect, test } from 'vitest'
import type { NewThing } from '../../api/things.ts'
import { draftOf, thingOf, wrongIn } from './thingDraft.ts'

test('what is known goes to the page and back unchanged, with what the page does not ask for', () => {
  const known: readonly NewThing[] = [
    {
      kind: 'leftover',
      name: 'pond green',
      facts: { grams: 510, place: 'shelf 3', lab: [48, -22, 14] },
    },
    { kind: 'handover', name: 'Friday', facts: { says: 'All is well.', humidityShare: 0.47 } },
    {
      kind: 'supply',
      name: 'tape',
      facts: { inHand: 1.5, unit: 'rolls', perWeek: 2, weeksToCome: 0, price: null, perCoat: null },
    },
  ]
  for (const told of known) expect(thingOf(draftOf(told))).toEqual(told)
})

test('a comma is a point; what may stay open is nothing; what may not is marked', () => {
  const draft = { ...draftOf('supply'), name: 'tape' }
  const fields = { inHand: '1,5', unit: 'rolls', perWeek: '2', weeksToCome: 'soon' }
  expect(wrongIn({ ...draft, fields })).toEqual(['weeksToCome'])
  const right = { ...draft, fields: { ...fields, weeksToCome: '3' } }
  expect(wrongIn(right)).toEqual([])
  expect(thingOf(right).facts).toMatchObject({ inHand: 1.5, weeksToCome: 3, price: null })
  expect(wrongIn({ ...draftOf('handover'), fields: { says: 'x', humidityShare: '140' } })).toEqual([
    'name',
    'humidityShare',
  ])
})
