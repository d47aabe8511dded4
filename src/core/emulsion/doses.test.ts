import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { near } from '../units/near.testing.ts'
import { density, lu, share, um } from '../units/quantity.ts'
import { cureDepthUm, doseForDepthLu, dosesUnderBase, soundDoseLu, surfaceDoses } from './doses.ts'
import {
  DEFAULT_BLEACHING_EMULSION,
  DEFAULT_EMULSION,
  EMULSION_RANGES,
  type Emulsion,
  usualAnchorDepthUm,
} from './emulsion.ts'
import { fogLimitLu } from './fogLimit.ts'
import { SOUND_SD, soundRise } from './soundRise.ts'

const printed = { within: 0.05, because: 'the design prints one decimal' }

test('oracle default-emulsion: skin 6, hold 10.3, full 52', () => {
  const doses = surfaceDoses(DEFAULT_EMULSION)
  expect(doses.gelDoseLu).toBe(6)
  near(doses.holdDoseLu, 10.3, printed)
  near(doses.throughDoseLu, 52, { within: 0.5, because: 'printed without decimals' })
})

test('oracle default-emulsion: the bleaching twin has hold 12.8, full 53', () => {
  const doses = surfaceDoses(DEFAULT_BLEACHING_EMULSION)
  near(doses.holdDoseLu, 12.8, printed)
  near(doses.throughDoseLu, 53, { within: 0.5, because: 'printed without decimals' })
})

test('oracle default-emulsion: 80 to 145 um costs 5.8 times by one model, 2.5 by the other', () => {
  const cost = (emulsion: Emulsion): number =>
    doseForDepthLu(emulsion, um(145)) / doseForDepthLu(emulsion, um(80))
  near(cost(DEFAULT_EMULSION), 5.8, printed)
  near(cost(DEFAULT_BLEACHING_EMULSION), 2.5, { within: 0.1, because: 'said as "about"' })
})

test('oracle latitude-practice: fog limits of 0.93 and 1.20 D are 51 and 95 lu', () => {
  const whole = { within: 0.5, because: 'printed without decimals' }
  near(fogLimitLu(lu(6), density(0.93)), 51, whole)
  near(fogLimitLu(lu(6), density(1.2)), 95, whole)
  near(fogLimitLu(lu(6), density(1.33)), 128, whole) // a 0.1 mm line in cut film, by halo alone
})

test('oracle sound-dose: 0.45 above hold on the default coat, more on a thicker one', () => {
  const sound = soundDoseLu(DEFAULT_EMULSION)
  const { holdDoseLu } = surfaceDoses(DEFAULT_EMULSION)
  near(Math.log10(sound.value / holdDoseLu), 0.45, { within: 1e-12, because: 't - a is 60' })
  near(Math.log10(sound.high / sound.low), 2 * 1.645 * 0.15, { within: 1e-12, because: 'rounding' })
  const thick = { ...DEFAULT_EMULSION, thicknessUm: um(110), anchorDepthUm: um(30) }
  near(Math.log10(soundDoseLu(thick).value / surfaceDoses(thick).holdDoseLu), 0.6, {
    within: 1e-12,
    because: 't - a is 80',
  })
})

test('oracle sound-dose: both models bear out the rise as far as it is carried, and part beyond', () => {
  // 64 % of the way from anchor to far side is what 0.45 means on the default coat.
  const asked = (emulsion: Emulsion, thicknessUm: number): number =>
    Math.log10(
      doseForDepthLu(emulsion, um(20 + 0.64 * (thicknessUm - 20))) /
        doseForDepthLu(emulsion, um(20)),
    )
  const models = [DEFAULT_EMULSION, DEFAULT_BLEACHING_EMULSION]
  for (const thicknessUm of [45, 60, 80, 100, 120].map(um)) {
    const { log10, extraSd } = soundRise({ thicknessUm, anchorDepthUm: um(20) })
    const within = { within: 0.75 * SOUND_SD, because: 'models within three quarters of its sd' }
    for (const model of models) near(log10, asked(model, thicknessUm), within)
    expect(extraSd).toBe(0)
  }
  const [absorbing = 0, bleaching = 0] = models.map((model) => asked(model, 225))
  expect(absorbing - bleaching).toBeGreaterThan(3 * SOUND_SD)
  const coarse = soundRise({ thicknessUm: um(225), anchorDepthUm: um(20) })
  near(coarse.log10, 0.75, { within: 1e-12, because: 'as at 100 um' })
  near(coarse.extraSd, 0.1575, { within: 1e-12, because: '0.0015 for each of 105 um' })
})

test('a film base asks for more of every dose, and leaves their ratios', () => {
  const clear = surfaceDoses(DEFAULT_EMULSION)
  const behind = dosesUnderBase(clear, density(0.35))
  near(behind.holdDoseLu / clear.holdDoseLu, 2.238721, { within: 5e-7, because: '10^0.35' })
  near(behind.throughDoseLu / behind.gelDoseLu, clear.throughDoseLu / clear.gelDoseLu, {
    within: 1e-12,
    because: 'one factor over all',
  })
})

test('a quarter of the coat is the anchor where nothing better is known', () => {
  expect(usualAnchorDepthUm(um(84))).toBe(21)
  expect(() => usualAnchorDepthUm(um(0))).toThrow('thicknessUm: expected 1 to 1000 um, got 0')
})

test('what cannot be is refused by name', () => {
  const shallow = { ...DEFAULT_EMULSION, thicknessUm: um(15) }
  expect(() => surfaceDoses(shallow)).toThrow('anchorDepthUm: expected 0 to 15 um, got 20')
  const dark = { ...DEFAULT_EMULSION, penetrationDepthUm: um(Number.NaN) }
  expect(() => surfaceDoses(dark)).toThrow('penetrationDepthUm: expected 2 to 2000 um, got NaN')
  const whole = { ...DEFAULT_BLEACHING_EMULSION, gelShare: share(1) }
  expect(() => surfaceDoses(whole)).toThrow('gelShare')
  expect(() => cureDepthUm(DEFAULT_EMULSION, lu(-1))).toThrow('surface dose')
  expect(() => doseForDepthLu(DEFAULT_EMULSION, um(-1))).toThrow('depthUm')
  expect(() => fogLimitLu(lu(6), density(Number.NaN))).toThrow('effectiveDensity')
})

// One suite over both models: whatever stands behind the interface keeps these laws.
describe.each([DEFAULT_EMULSION, DEFAULT_BLEACHING_EMULSION])('$model', (emulsion: Emulsion) => {
  test('the three doses are the depths 0, anchor and through', () => {
    const { gelDoseLu, holdDoseLu, throughDoseLu } = surfaceDoses(emulsion)
    const exact = { within: 1e-9, because: 'the inverse of the depth' }
    near(cureDepthUm(emulsion, gelDoseLu), 0, exact)
    near(cureDepthUm(emulsion, holdDoseLu), 20, exact)
    near(cureDepthUm(emulsion, throughDoseLu), 80, exact)
    expect(doseForDepthLu(emulsion, um(0))).toBe(gelDoseLu)
  })

  test('invariant: more light never cures less, and skin, hold, full stand in that order', () => {
    const coat = fc.double({ min: 1, max: 400, noNaN: true })
    const part = fc.double({ min: 0, max: 1, noNaN: true })
    const dose = fc.double({ min: 0, max: 3000, noNaN: true })
    fc.assert(
      fc.property(coat, part, dose, dose, (thickness, anchorPart, one, other) => {
        const thicknessUm = um(thickness)
        const anchorDepthUm = um(anchorPart * thickness)
        const doses = surfaceDoses({ ...emulsion, thicknessUm, anchorDepthUm })
        expect(doses.holdDoseLu).toBeGreaterThanOrEqual(doses.gelDoseLu)
        expect(doses.throughDoseLu).toBeGreaterThanOrEqual(doses.holdDoseLu)
        const [less, more] = one < other ? [one, other] : [other, one]
        const gained = cureDepthUm(emulsion, lu(more)) - cureDepthUm(emulsion, lu(less))
        expect(gained).toBeGreaterThanOrEqual(0)
      }),
      { seed: 33 },
    )
  })

  test('answers at both ends of every range stay finite', () => {
    for (const [key, { low, high }] of Object.entries(EMULSION_RANGES)) {
      if (!(key in emulsion)) continue
      for (const value of [low, high]) {
        const extreme: Emulsion = { ...emulsion, thicknessUm: um(1000), [key]: value }
        if (key === 'thicknessUm') Object.assign(extreme, { anchorDepthUm: um(value / 5) })
        const doses = surfaceDoses(extreme)
        expect(doses.gelDoseLu).toBeGreaterThan(0)
        expect(Number.isFinite(doses.throughDoseLu)).toBe(true)
        const { gelDoseLu } = dosesUnderBase(doses, density(3))
        expect(fogLimitLu(gelDoseLu, density(3.3))).toBeGreaterThan(gelDoseLu)
        expect(fogLimitLu(doses.gelDoseLu, density(-0.1))).toBeLessThan(doses.gelDoseLu)
      }
    }
  })
})
