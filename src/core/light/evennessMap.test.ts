import fc from 'fast-check'
import { expect, test } from 'vitest'
import { isFailure } from '../failure.ts'
import { near } from '../units/near.testing.ts'
import { mm } from '../units/quantity.ts'
import { evennessAt, type GlassPlace } from './doseField.ts'
import { evennessFrom, evennessOnMap, fitEvenness, type LightReading } from './evennessMap.ts'

const at = (xMm: number, yMm: number): GlassPlace => ({ xMm: mm(xMm), yMm: mm(yMm) })
const grid = (acrossMm: readonly number[], downMm: readonly number[]): GlassPlace[] =>
  acrossMm.flatMap((xMm) => downMm.map((yMm) => at(xMm, yMm)))
const nine = grid([-250, 10, 270], [-180, -5, 170])
type Field = (place: GlassPlace) => number
const read = (places: readonly GlassPlace[], light: Field): LightReading[] =>
  places.map((place) => ({ ...place, light: light(place) }))

test('nine readings of a lamp at 900 mm give its cos4 field back to a hundredth', () => {
  const lamp = { distanceMm: mm(900) }
  const map = fitEvenness(read(nine, (place) => 812 * evennessAt(place, lamp)))
  expect(map.surface).toBe('quadratic')
  expect(map.residualSd ?? 1).toBeLessThan(0.002)
  for (const place of grid([-200, -90, 60, 230], [-150, 40, 120])) {
    const ratio = evennessOnMap(map, place).value / evennessOnMap(map, at(0, 0)).value
    near(ratio, evennessAt(place, lamp), { within: 0.01, because: 'a quadratic for cos4' })
  }
})

test('five readings are a plane, and the map says why', () => {
  const five = [...grid([-200, 210], [-150, 160]), at(5, 8)]
  const map = fitEvenness(read(five, ({ xMm }) => 40 + xMm / 90))
  expect(map).toMatchObject({ surface: 'plane', because: expect.stringContaining('at least 6') })
  expect(map.residualSd).not.toBeNull()
})

// By hand: a centre 0.1 D brighter than four equal corners lifts the plane by 0.02 D and leaves
// residuals of four times 0.02 and once 0.08, so 0.008 in squares over 5 - 3 spare readings.
test('oracle least-squares: the scatter about a plane of five readings, worked by hand', () => {
  const corners = grid([-200, 200], [-150, 150])
  const map = fitEvenness(read([...corners, at(0, 0)], ({ xMm }) => (xMm === 0 ? 10 ** 0.1 : 1)))
  near(map.residualSd ?? Number.NaN, Math.sqrt(0.008 / 2), { within: 1e-12, because: 'rounding' })
})

test('two rows of three cannot tell a curve: a plane, and the map says why', () => {
  const map = fitEvenness(read(grid([-200, 20, 210], [-150, 160]), ({ xMm }) => 40 + xMm / 90))
  expect(map).toMatchObject({ surface: 'plane', because: expect.stringContaining('do not tell') })
})

test('as many readings as terms leave no scatter to tell', () => {
  const six = [...grid([-200, 210], [-150, 160]), at(5, 8), at(70, -90)]
  const curved = fitEvenness(read(six, ({ xMm, yMm }) => 50 + xMm / 70 - (yMm / 60) ** 2))
  expect(curved).toMatchObject({ surface: 'quadratic', residualSd: null })
  expect(fitEvenness(read(six.slice(0, 3), ({ xMm }) => 40 + xMm / 90)).residualSd).toBeNull()
})

test('two readings, or any number in one line, are refused with what to do', () => {
  const line = [0, 1, 2, 3, 4, 5, 6].map((step) => at(10 + 30 * step, 20 - 45 * step))
  for (const places of [nine.slice(0, 2), line, grid([30], [1, 2, 3, 4]), []]) {
    expect(() => fitEvenness(read(places, ({ xMm }) => 30 + xMm / 80))).toThrow(/not in one line/)
  }
  try {
    fitEvenness([])
  } catch (error) {
    expect(isFailure(error, 'wrong input')).toBe(true)
  }
  expect(() => fitEvenness(read(nine, () => 0))).toThrow('light: expected')
})

test('a measured map wins over the rule for a bare lamp', () => {
  const lamp = { distanceMm: mm(700) }
  const map = fitEvenness(read(nine, ({ xMm }) => 30 + xMm / 50))
  const ratio = (evenness: Field): number => evenness(at(220, 0)) / evenness(at(-220, 0))
  expect(ratio(evennessFrom({ map, lamp }))).toBeGreaterThan(1.2)
  near(ratio(evennessFrom({ map: null, lamp })), 1, { within: 1e-12, because: 'symmetry' })
})

test('a place outside the readings says so', () => {
  const map = fitEvenness(read(nine, ({ xMm }) => 30 + xMm / 50))
  expect(evennessOnMap(map, at(269, 169)).beyondReadings).toBe(false)
  expect(evennessOnMap(map, at(271, 0)).beyondReadings).toBe(true)
  expect(evennessOnMap(map, at(0, -181)).beyondReadings).toBe(true)
})

test('invariant: a field of the fitted form comes back, whatever the unit of the readings', () => {
  const coefficient = fc.double({ min: -0.4, max: 0.4, noNaN: true })
  const unit = fc.double({ min: 0.01, max: 1000, noNaN: true })
  fc.assert(
    fc.property(fc.tuple(coefficient, coefficient, coefficient, coefficient), unit, (c, scale) => {
      const field = ({ xMm, yMm }: GlassPlace): number =>
        10 ** ((c[0] * xMm + c[1] * yMm) / 260 + (c[2] * xMm * yMm + c[3] * yMm ** 2) / 50000)
      const map = fitEvenness(read(nine, (place) => scale * field(place)))
      expect(map.residualSd ?? 1).toBeLessThan(1e-9)
      const [one, other] = [at(-120, 66), at(201, -93)]
      const ratio = evennessOnMap(map, one).value / evennessOnMap(map, other).value
      near(Math.log10(ratio), Math.log10(field(one) / field(other)), {
        within: 1e-9,
        because: 'six terms in doubles',
      })
    }),
    { seed: 13 },
  )
})
