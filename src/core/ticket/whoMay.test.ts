import { expect, test } from 'vitest'
import type { Shown } from '../register/machines.ts'
import { whoMay } from './whoMay.ts'

const NOW = 1000
const shown = (machine: Shown['machine'], expiresMs: number | null = null): Shown => ({
  machine,
  unitId: 'the big lamp',
  givenMs: 1,
  expiresMs,
})
const HANDS = [
  { name: 'Maro', showsOthers: true, shown: [] },
  { name: 'Tam', showsOthers: false, shown: [shown('light'), shown('water'), shown('drying')] },
  { name: 'Jo', showsOthers: false, shown: [shown('light', 999), shown('water')] },
]
const ASKED = ['light', 'water', 'drying', 'chemicals'] as const

test('who was shown all that a station takes can do it, for as long as that holds', () => {
  const may = (
    station: Parameters<typeof whoMay>[1]['station'],
    asked: typeof ASKED | [] = ASKED,
  ) => whoMay(HANDS, { station, asked, nowMs: NOW })
  expect(may('light')).toEqual({ anybody: false, names: ['Maro', 'Tam'] })
  expect(may('reclaim')).toEqual({ anybody: false, names: ['Maro'] })
  // nobody asks for the press here, and nothing for a film
  expect(may('print').anybody).toBe(true)
  expect(may('film')).toEqual({ anybody: true, names: ['Maro', 'Tam', 'Jo'] })
  expect(may('light', []).anybody).toBe(true)
})
