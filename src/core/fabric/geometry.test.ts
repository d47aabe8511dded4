import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { isFailure } from '../failure.ts'
import { near } from '../units/near.testing.ts'
import { perCm, um } from '../units/quantity.ts'
import { fabricGeometry, THICKNESS_PER_THREAD, weaveNamed } from './geometry.ts'
import { GRADES, type Weave } from './grades.ts'

const weave = (threadsPerCm: number, threadUm: number): Weave => ({
  threadsPerCm: perCm(threadsPerCm),
  threadUm: um(threadUm),
})

test.each([
  [40, 73, 42, 59, 25],
  [48, 65, 33, 72, 24],
  [54, 59, 27, 84, 23],
])('oracle fabric-rows: 225 an inch of %d um: w %d, a0 %d %, D %d, Vth %d', (...printed) => {
  const [thread, opening, openPercent, thickness, volume] = printed
  const fabric = fabricGeometry(weave(225 / 2.54, thread))
  const rounded = { within: 0.5, because: 'printed without decimals' }
  near(fabric.openingUm, opening, rounded)
  near(100 * fabric.openAreaShare, openPercent, rounded)
  near(fabric.inkVolumeCm3PerM2, volume, rounded)
  expect(fabric).toMatchObject({ thicknessUm: thickness, thicknessBasis: 'published' })
})

test('oracle fabric-rows: by its name 90-48 is reckoned with 90 and keeps its row beside', () => {
  const fabric = fabricGeometry(weaveNamed('90-48'))
  const digits = { within: 0.005, because: 'two decimals' }
  near(fabric.openingUm, 63.11, digits)
  near(100 * fabric.openAreaShare, 32.26, digits)
  near(fabric.inkVolumeCm3PerM2, 23.23, digits)
  const printed = { openingUm: 65, openAreaShare: 0.33, thicknessUm: 72, inkVolumeCm3PerM2: 24 }
  expect(fabric.published).toMatchObject(printed)
  near(fabric.published?.threadsPerCm ?? Number.NaN, 88.583, { within: 5e-4, because: '225/2.54' })
})

test('oracle fabric-measured: 305 an inch of 40 um, 63 um thick, measures 25 % open', () => {
  const fabric = fabricGeometry(weave(305 / 2.54, 40))
  expect(fabric).toMatchObject({ thicknessUm: 63, thicknessBasis: 'published' })
  near(fabric.openingUm, 43.28, { within: 0.005, because: 'two decimals' })
  near(100 * fabric.openAreaShare, 25, { within: 2.1, because: 'finished cloth opens less' })
})

test.each([
  [10, 260, 1000, 740, 54.76],
  [34, 100, 294.12, 194.12, 43.56],
  [90, 48, 111.11, 63.11, 32.26],
  [120, 34, 83.33, 49.33, 35.05],
])('oracle fabric-pairs: %d-%d: pitch %d, w %d, a0 %d %', (count, thread, pitch, opening, open) => {
  const fabric = fabricGeometry(weave(count, thread))
  const digits = { within: 0.0051, because: 'two decimals' }
  near(fabric.pitchUm, pitch, digits)
  near(fabric.openingUm, opening, digits)
  near(100 * fabric.openAreaShare, open, digits)
})

test('oracle ruling-ratios: 150-31 at 3.75 is 40 lines a cm and at 5 is 30', () => {
  const { rulingPerCm } = fabricGeometry(weaveNamed('150-31'))
  expect(rulingPerCm).toEqual({ coarse: 30, usual: 40, finest: 60 })
})

test('oracle finest-line: one pitch', () => {
  const { finestLineUm } = fabricGeometry(weaveNamed('120-34'))
  near(finestLineUm, 83.33, { within: 0.005, because: '10000/120' })
})

test('a fabric that is in no table goes by formula and says so', () => {
  const fabric = fabricGeometry(weaveNamed('58.5-61'))
  expect(fabric).toMatchObject({ thicknessBasis: 'by formula', published: null, threadUm: 61 })
  near(fabric.thicknessUm, 93.1, { within: 0.05, because: 'mean of the four rows: 1.5264 d' })
})

test('a published count and thread without a thickness goes by formula too', () => {
  const fabric = fabricGeometry(weaveNamed('120-34'))
  expect(fabric).toMatchObject({ thicknessBasis: 'by formula', published: { thicknessUm: null } })
})

test('a wrong name or an impossible weave is refused in one sentence', () => {
  const message = (name: string): string => {
    try {
      fabricGeometry(weaveNamed(name))
      return 'taken'
    } catch (error) {
      return isFailure(error, 'wrong input') ? error.message : `not a Failure: ${String(error)}`
    }
  }
  expect(message('90/48')).toContain('like 90-48')
  expect(message('')).toContain('like 90-48')
  expect(message('90-48-2')).toContain('like 90-48')
  expect(message('1-48')).toContain('the threadsPerCm may be 4 to 250 threads per cm, and 1 is not')
  expect(message('90-4')).toContain('threadUm may be 10 to 1000 um')
  expect(message('165-61')).toContain('60.6 um apart, and threads of 61 um leave no opening')
  expect(message('100-100')).toContain('leave no opening')
  expect(message(' 77 - 55 ')).toBe('taken')
  expect(() => fabricGeometry(weave(Number.NaN, 48))).toThrow(RangeError)
})

describe.each(GRADES)('grade $name', (grade) => {
  const fabric = fabricGeometry(grade)

  test('can be woven, and stands once in the table', () => {
    expect(fabric.openingUm).toBeGreaterThan(0)
    expect(weaveNamed(grade.name)).toEqual(weave(grade.threadsPerCm, grade.threadUm))
    expect(GRADES.filter(({ name }) => name === grade.name)).toHaveLength(1)
    expect(grade.status === 'published').toBe(grade.published !== null)
  })

  test('oracle fabric-measured: is thinner than two threads and thicker than one', () => {
    expect(fabric.thicknessUm).toBeGreaterThan(1.45 * grade.threadUm)
    expect(fabric.thicknessUm).toBeLessThan(1.6 * grade.threadUm)
  })

  test('is near its published figures, as theory is', () => {
    const { openingUm, openAreaShare } = grade.published ?? {}
    const opening = { within: 3, because: 'the row may mean another count' }
    if (openingUm) near(fabric.openingUm, openingUm, opening)
    if (openAreaShare) near(fabric.openAreaShare, openAreaShare, { ...opening, within: 0.021 })
  })
})

test('there are at least 16 grades, and both kinds of status', () => {
  expect(GRADES.length).toBeGreaterThanOrEqual(16)
  expect(new Set(GRADES.map(({ status }) => status)).size).toBe(2)
})

test('oracle fabric-rows: the mean of the published D/d, 1.475 1.500 1.556 1.575', () => {
  const mean = (1.475 + 1.5 + 1.556 + 1.575) / 4
  near(THICKNESS_PER_THREAD, mean, { within: 5e-4, because: 'three decimals each' })
})

test('invariant: opening and thread make the pitch, and the open area is a share', () => {
  const count = fc.double({ min: 4, max: 250, noNaN: true })
  const thread = fc.double({ min: 10, max: 1000, noNaN: true })
  fc.assert(
    fc.property(count, thread, (threadsPerCm, threadUm) => {
      fc.pre(threadsPerCm * threadUm < 9999)
      const fabric = fabricGeometry(weave(threadsPerCm, threadUm))
      const centimetre = (fabric.openingUm + threadUm) * threadsPerCm
      near(centimetre, 10_000, { within: 1e-8, because: 'rounding' })
      expect(fabric.openAreaShare).toBeGreaterThan(0)
      expect(fabric.openAreaShare).toBeLessThan(1)
      expect(fabric.thicknessUm).toBeGreaterThan(threadUm)
      expect(fabric.thicknessUm).toBeLessThan(2 * threadUm)
      expect(fabric.inkVolumeCm3PerM2).toBeLessThan(fabric.thicknessUm)
      const { coarse, usual, finest } = fabric.rulingPerCm
      expect(coarse < usual && usual < finest && finest < threadsPerCm).toBe(true)
    }),
    { seed: 41 },
  )
})
