import { expect, test } from 'vitest'
import { density, lu, um } from '../../core/units/quantity.ts'
import type { Coating } from '../../store/coatings.ts'
import type { Fabric } from '../../store/fabrics.ts'
import type { WholeReading } from '../../store/readings.ts'
import { dayOf } from './days.ts'
import { evidenceOf, type Known } from './evidence.ts'

const AT = new Date('2026-11-09T12:00:00Z')
const daysBefore = (days: number): Date => new Date(AT.getTime() - days * 24 * 3600_000)

const FABRIC = { id: 'f', threadsPerCm: 90, threadUm: um(48), thicknessUm: um(75), dyed: true }
const coating = (id: string, coatedAt: Date, eomUm: number | null): Coating =>
  ({ id, screenId: 's', coatedAt, eomUm }) as Coating
const KNOWN: Known = {
  media: [],
  bases: [],
  lamps: [],
  fabrics: new Map([['f', FABRIC as Fabric]]),
  coatings: new Map([
    ['s', [coating('old', daysBefore(30), 4), coating('new', daysBefore(2), 14)]],
  ]),
  lightAt: () => 1,
  lightKey: '',
}

function wedge(reading: Partial<WholeReading['reading']>): WholeReading {
  const whole = {
    kind: 'wedge',
    takenAt: AT,
    unitId: 'u',
    fabricId: 'f',
    batchId: 'b',
    recipe: 'twice on the print side',
    screenId: 's',
    doseLu: lu(60),
    firstDensity: density(0.05),
    increment: density(0.15),
    steps: 21,
    lastSolidStep: 6,
    firstClearStep: null,
    baseId: null,
    filmId: null,
    lampHours: 120,
    xMm: null,
    yMm: null,
    struckAt: null,
    ...reading,
  }
  return { reading: whole as WholeReading['reading'], bands: [] }
}

test('a reading on a screen carries the coating it had that day, its thickness measured', () => {
  const evidence = evidenceOf(wedge({}), KNOWN)
  expect(evidence).toMatchObject({
    unit: 'u',
    emulsion: 'b',
    fabric: 'f',
    dyed: true,
    recipe: 'twice on the print side',
    screen: 'new',
    lampHours: 120,
    day: dayOf(AT),
  })
  const before = evidenceOf(wedge({ takenAt: daysBefore(9) }), KNOWN)
  expect(before).toMatchObject({ screen: 'old' })
  // 14 µm over the fabric against 4
  expect((evidence?.coat?.thicknessUm ?? 0) - (before?.coat?.thicknessUm ?? 0)).toBe(10)
  // Before its first coating nobody knows what was on it.
  const first = evidenceOf(wedge({ takenAt: daysBefore(40) }), KNOWN)
  expect(first?.screen).toBeUndefined()
})

test('without a screen the coat is that of the recipe on the fabric, and one without fabric has none', () => {
  const [once, more] = (['once on each side', 'more'] as const).map((recipe) => {
    return evidenceOf(wedge({ screenId: null, recipe }), KNOWN)
  })
  expect(once?.screen).toBeUndefined()
  expect(once?.coat?.thicknessUm).toBeGreaterThan(75)
  expect(more?.coat?.thicknessUm).toBeGreaterThan(once?.coat?.thicknessUm ?? Infinity)
  expect(evidenceOf(wedge({ screenId: null, fabricId: null }), KNOWN)?.coat).toBeUndefined()
})
