import { expect, test } from 'vitest'
import { near } from '../../core/units/near.testing.ts'
import { aboutOf } from './about.ts'

const asked = {
  subject: { kind: 'medium', id: 'm', name: 'drawing ink' },
  base: { id: 'b', name: 'matt film' },
  screen: { id: 's', name: 'screen 9' },
  unit: { id: 'u', name: 'the tubes' },
} as const
const dose = { value: 60, low: 50, high: 72, confidence: 0.9 }
const lampTime = { hotSec: 60, coldSec: 75, says: '' }

test('a lamp that counts seconds is set to those of a cold one, and lit for as long', () => {
  const cold = aboutOf({ asked, countsIn: 'seconds', dose, lampTime }, { from: 'cold' })
  near(cold.dose.value, 75, { within: 1e-9, because: 'arithmetic' })
  near(cold.dose.low, 62.5, { within: 1e-9, because: '50 by 75 / 60' })
  near(cold.dose.high, 90, { within: 1e-9, because: '72 by 75 / 60' })
  expect(cold.litSec).toEqual({ low: cold.dose.value, high: cold.dose.value })
  const hot = aboutOf({ asked, countsIn: 'seconds', dose, lampTime }, { from: 'hot' })
  expect([hot.dose.value, hot.litSec]).toEqual([60, { low: 60, high: 60 }])
})

test('a counter of light keeps its dose; how long the lamp is lit goes by how warm it is', () => {
  const litFrom = (from: 'cold' | 'hot' | undefined) =>
    aboutOf({ asked, countsIn: 'light units', dose, lampTime }, { from })
  expect(litFrom('cold')).toMatchObject({ dose: { value: 60 }, litSec: { low: 75, high: 75 } })
  expect(litFrom('hot').litSec).toEqual({ low: 60, high: 60 })
  expect(litFrom(undefined).litSec).toEqual({ low: 60, high: 75 })
  const untimed = { asked, countsIn: 'light units', dose, lampTime: null } as const
  expect(aboutOf(untimed, { from: 'cold' }).litSec).toBeNull()
})
