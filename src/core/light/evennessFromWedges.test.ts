import { expect, test } from 'vitest'
import { randomFrom } from '../../demo/random.ts'
import { USUAL_WEDGE } from '../calibration/wedge.ts'
import { near } from '../units/near.testing.ts'
import { density, mm } from '../units/quantity.ts'
import { evennessAt } from './doseField.ts'
import { evennessFromWedges, type PlacedWedge } from './evennessFromWedges.ts'
import { evennessOnMap } from './evennessMap.ts'

const FINE = { steps: 41, firstDensity: density(0.05), increment: density(0.05) }
const PLACES = [-400, 0, 400].flatMap((xMm) =>
  [-300, 0, 300].map((yMm) => ({ xMm: mm(xMm), yMm: mm(yMm) })),
)

test('oracle lamp-geometry: nine wedges of 0.05 under a bare lamp show its fall to the corners', () => {
  const lamp = { distanceMm: mm(800) }
  const readings: readonly PlacedWedge[] = PLACES.map((place) => ({
    ...place,
    // last step whose light is over the hold dose: 20.5 steps in the middle
    lastSolidStep: Math.floor(20.5 + Math.log10(evennessAt(place, lamp)) / 0.05),
  }))
  const { map, mapSd } = evennessFromWedges(readings, { wedge: FINE })
  // cos⁴ at 500 mm from the middle under a lamp at 800: (800² / (800² + 500²))² = 0.5172
  const corner = evennessOnMap(map, { xMm: mm(400), yMm: mm(300) }).value
  near(Math.log10(corner), Math.log10(0.5172), {
    within: 2 * mapSd,
    because: 'steps are whole: twice the sd that is told',
  })
  near(mapSd, Math.sqrt((0.05 ** 2 / 3 + 0.05 ** 2) * (6 / 9)), {
    within: 1e-9,
    because: 'by hand',
  })
})

test('a corner with one step less has 10^-0.15 of the light there, and both ends tell it better', () => {
  const corners = [
    [0, 0, 7, 10],
    [600, 0, 7, 10],
    [0, 400, 6, 9],
    [600, 400, 7, 10],
    [300, 200, 7, 10],
  ] as const
  const both = corners.map(([x, y, lastSolidStep, firstClearStep]) => ({
    xMm: mm(x),
    yMm: mm(y),
    lastSolidStep,
    firstClearStep,
  }))
  const wedge = USUAL_WEDGE
  const one = evennessFromWedges(
    both.map(({ xMm, yMm, lastSolidStep }) => ({ xMm, yMm, lastSolidStep })),
    { wedge },
  )
  const two = evennessFromWedges(both, { wedge })
  for (const { shares } of [one, two]) {
    near((shares[2] ?? 0) / (shares[0] ?? 1), 0.70795, { within: 1e-5, because: '10^-0.15' })
  }
  expect(two.readingSd).toBeLessThan(one.readingSd)
  expect(one.map.surface).toBe('plane') // five places
})

test('nine simulated wedges scatter about the map as is told of them', () => {
  const random = randomFrom(1913)
  const normal = (): number =>
    Math.sqrt(-2 * Math.log(1 - random.share())) * Math.cos(2 * Math.PI * random.share())
  for (const wedge of [FINE, USUAL_WEDGE]) {
    const { increment } = wedge
    let [squares, count, told] = [0, 0, 0]
    for (let glass = 0; glass < 300; glass++) {
      const middle = 9 + random.share()
      // half a step of the eye, and 0.05 D from place to place of one screen
      const readings = PLACES.map((place) => {
        const mu = middle + (0.05 / increment) * normal() + 0.5 * normal()
        return { ...place, lastSolidStep: Math.floor(mu) }
      })
      const { map, mapSd } = evennessFromWedges(readings, { wedge })
      told = mapSd
      for (const place of PLACES) {
        const steps =
          (Math.log10(evennessOnMap(map, place).value) + (map.coefficients[0] ?? 0)) / increment
        squares += (increment * (steps + 0.5 - middle)) ** 2 // a floor lies half a step low
        count += 1
      }
    }
    near(Math.sqrt(squares / count) / told, 1, { within: 0.08, because: '300 glasses' })
  }
})

test('places in a line tell no map, steps that are none are refused', () => {
  const line = [0, 100, 200].map((x) => ({ xMm: mm(x), yMm: mm(0), lastSolidStep: 7 }))
  expect(() => evennessFromWedges(line, { wedge: USUAL_WEDGE })).toThrow('not in one line')
  const [first] = line
  const wrong = [{ ...(first ?? { xMm: mm(0), yMm: mm(0) }), lastSolidStep: 22 }]
  expect(() => evennessFromWedges(wrong, { wedge: USUAL_WEDGE })).toThrow('lastSolidStep')
})
