import type { DemoFilmName } from './films.ts'

/** Where the demo shop's screens stand, whose they are, and how tight. Demo, invented. */
export const DEMO_REGISTER: readonly DemoPlace[] = [
  { tag: '3', slot: 'A 1', tension: 17.5 },
  { tag: '5', slot: 'A 2', tension: 19, owner: 'Jonah Pell', keptDays: 5 },
  { tag: '7', slot: 'A 3', tension: 20.5, owner: 'Dov Ashgrove', keptDays: 5 },
  { tag: '8', slot: 'B 3', tension: 21, owner: 'Tamsin Ore', keptDays: 6, film: 'kettleBlock' },
  { tag: '11', slot: 'B 5', tension: 22, owner: 'Tamsin Ore', keptDays: 5 },
  { tag: '12', slot: 'B 1', tension: 18.5 },
  { tag: '14', slot: 'B 2', tension: 22, owner: 'Tamsin Ore', keptDays: 5 },
  { tag: '15', slot: 'A 5', tension: 21.5, owner: 'Jonah Pell', keptDays: 2, film: 'brushAndWash' },
  { tag: '16', slot: 'C 1', tension: 11 },
  { tag: '21', slot: 'C 2', tension: 19.5, owner: 'Tamsin Ore', keptDays: 9 },
  { tag: '22', slot: 'C 3', tension: 18, owner: 'Dov Ashgrove', keptDays: -4, haze: true },
  { tag: '23', slot: 'B 4', tension: null },
]

/** Whom the demo shop's technician has shown what. Demo. */
export const DEMO_SIGN_OFFS: readonly DemoSignOff[] = [
  { name: 'Tamsin Ore', machine: 'coating', days: 200 },
  { name: 'Tamsin Ore', machine: 'drying', days: 200 },
  { name: 'Tamsin Ore', machine: 'light', days: 200 },
  { name: 'Tamsin Ore', machine: 'water', days: 200 },
  { name: 'Jonah Pell', machine: 'drying', days: 200 },
  { name: 'Jonah Pell', machine: 'light', days: -12 },
  { name: 'Jonah Pell', machine: 'water', days: 200 },
  { name: 'Dov Ashgrove', machine: 'coating', days: 200 },
  { name: 'Dov Ashgrove', machine: 'drying', days: 200 },
  { name: 'Dov Ashgrove', machine: 'light', days: 200 },
  { name: 'Dov Ashgrove', machine: 'water', days: 200 },
  { name: 'Dov Ashgrove', machine: 'pressure washing', days: 90 },
  { name: 'Dov Ashgrove', machine: 'chemicals', days: 90 },
  { name: 'Dov Ashgrove', machine: 'alone', days: 90 },
]

export const DEMO_CLASS = 'second-years'

export type DemoPlace = Readonly<{
  tag: string
  slot: string
  tension: number | null
  owner?: string
  /** Days from now; below 0: it is overdue. */
  keptDays?: number
  haze?: boolean
  /** What was exposed on it. */
  film?: DemoFilmName
}>

export type DemoSignOff = Readonly<{
  name: string
  machine: 'coating' | 'drying' | 'light' | 'water' | 'pressure washing' | 'chemicals' | 'alone'
  /** Good for so long from now; below 0: run out. */
  days: number
}>
