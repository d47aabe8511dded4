import { expect, test } from 'vitest'
import { randomFrom } from '../calibration/belief/draws.testing.ts'
import { near } from '../units/near.testing.ts'
import { byMeter, type MeterReading } from './byMeter.ts'

const at = (clockSec: number, reading: number): MeterReading => ({ clockSec, reading })

test('half the reference reading takes twice the seconds', () => {
  const { given, moreSec } = byMeter({ readings: [at(0, 31)], reference: 62, count: 480 })
  expect(given.value).toBe(0)
  near(moreSec.value, 960, { within: 1e-9, because: 'worked by hand: 480 · 62/31' })
  expect(moreSec.low).toBeLessThan(960)
  expect(moreSec.high).toBeGreaterThan(960)
})

test('light that rises evenly is summed exactly', () => {
  // 40 to 60 of the meter in 300 s: 300 · 50 = 15 000, and 50 of it a count; 180 left at 1.2
  const { given, moreSec } = byMeter({
    readings: [at(0, 40), at(120, 48), at(300, 60)],
    reference: 50,
    count: 480,
  })
  near(given.value, 300, { within: 1e-9, because: 'worked by hand' })
  near(moreSec.value, 150, { within: 1e-9, because: 'worked by hand' })
})

test('what has had enough needs no more seconds', () => {
  const enough = byMeter({ readings: [at(0, 50), at(500, 50)], reference: 50, count: 480 })
  expect(enough.moreSec).toEqual({ value: 0, low: 0, high: 0, confidence: 0.9 })
  near(enough.given.value, 500, { within: 1e-9, because: 'worked by hand' })
})

test('a light that moved is doubted more than one that stood', () => {
  const stood = byMeter({ readings: [at(0, 50), at(240, 50)], reference: 50, count: 480 })
  const cloud = byMeter({ readings: [at(0, 50), at(240, 25)], reference: 50, count: 480 })
  expect(cloud.doubtDensity).toBeGreaterThan(2 * stood.doubtDensity)
})

/** How much of its light at the zenith a clear sky lets through, on a level glass. */
function clearSky(altitudeDeg: number): number {
  const zenithDeg = 90 - altitudeDeg
  const cos = Math.cos((zenithDeg * Math.PI) / 180)
  const airMass = 1 / (cos + 0.50572 * (96.07995 - zenithDeg) ** -1.6364)
  return cos * Math.exp(-0.7 * airMass)
}

test.each([
  ['rising', 25, 12],
  ['sinking', 45, -12],
])(
  'oracle kasten-young1989: a %s sun, read again at half of the rest, gives the dose',
  (_, startDeg, perHour) => {
    const light = (clockSec: number): number => clearSky(startDeg + (perHour * clockSec) / 3600)
    // a dose of half an hour at the first reading
    const [reference, count] = [light(0), 1800]
    const readings = [at(0, light(0))]
    for (let reads = 0; reads < 4; reads++) {
      const { moreSec } = byMeter({ readings, reference, count })
      const last = readings.at(-1)?.clockSec ?? 0
      readings.push(at(last + moreSec.value / 2, light(last + moreSec.value / 2)))
    }
    const { moreSec, doubtDensity } = byMeter({ readings, reference, count })
    const endSec = (readings.at(-1)?.clockSec ?? 0) + moreSec.value
    let dose = 0
    for (let sec = 0.5; sec < endSec; sec++) dose += light(sec) / reference
    const off = Math.abs(Math.log10(dose / count))
    expect(off).toBeLessThan(0.15 / 4)
    expect(off).toBeLessThan(doubtDensity)
    let plain = 0
    for (let sec = 0.5; sec < count; sec++) plain += light(sec) / reference
    expect(Math.abs(Math.log10(plain / count))).toBeGreaterThan(2 * off)
  },
)

test('the 90 % ranges hold the dose of a light that wanders as is judged', () => {
  const random = randomFrom(20261128)
  let held = 0
  const RUNS = 800
  for (let run = 0; run < RUNS; run++) {
    let log = 0
    const logs = [0]
    for (let sec = 1; sec < 2400; sec++) {
      log += random.normal() * Math.sqrt(0.01 / 600)
      logs.push(log)
    }
    const read = (sec: number): MeterReading =>
      at(sec, 50 * Math.exp((logs[sec] ?? 0) + 0.03 * random.normal()))
    const readings = run % 2 === 0 ? [read(0)] : [read(0), read(300)]
    const { moreSec, doubtDensity } = byMeter({ readings, reference: 50, count: 600 })
    const end = (readings.at(-1)?.clockSec ?? 0) + moreSec.value
    const dose = logs.slice(0, Math.round(end)).reduce((sum, each) => sum + Math.exp(each), 0)
    if (Math.abs(Math.log10(dose / 600)) < doubtDensity) held++
  }
  expect(held / RUNS).toBeGreaterThan(0.86)
  expect(held / RUNS).toBeLessThan(0.95)
})

test('no reading, and two at one second, are refused', () => {
  const asked = { reference: 50, count: 480 }
  expect(() => byMeter({ ...asked, readings: [] })).toThrow(RangeError)
  expect(() => byMeter({ ...asked, readings: [at(0, 50), at(0, 51)] })).toThrow('clockSec')
  expect(() => byMeter({ ...asked, readings: [at(0, 0)] })).toThrow('reading')
})
