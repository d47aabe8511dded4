import { expect, test } from 'vitest'
import { near } from '../../units/near.testing.ts'
import { density, lu, um } from '../../units/quantity.ts'
import type { Evidence } from './evidence.ts'
import { projected } from './gaussian.ts'
import { mediumPrior } from './priors.ts'
import { atLampHours, type Belief, onDay, placeOf, startBelief } from './state.ts'
import { touched } from './touch.ts'
import { taughtBy } from './update.ts'

const SHOP = { usualBaseDensity: density(0.15), secondsUnits: ['the old tubes'] }
const START = startBelief(SHOP)
const PENCIL = { medium: 'soft pencil' }
const exact = { within: 1e-12, because: 'sums' }

const of = (touch: ReturnType<typeof touched>): { mean: number[]; cov: number[] } => {
  const { mean, cov } = projected(touch.belief.gaussian, [touch.hold, touch.sound, ...touch.fog])
  return { mean: [...mean], cov: [...cov] }
}

test('oracle belief-priors: mean and covariance of hold, sound and fog limit, added up by hand', () => {
  const { mean, cov } = of(touched(START, {}, [PENCIL]))
  // hold 0.15² + unit 0.12² + batch 0.06² + fabric 0.08² + recipe 0.06² + screen 0.05²
  const ground = 0.0225 + 0.0144 + 0.0036 + 0.0064 + 0.0036 + 0.0025
  const expectedMean = [1.013, 1.013 + 0.45, 1.013 - 0.235 + 0.93]
  const expectedCov = [
    [ground, ground, ground],
    [ground, ground + 0.15 ** 2, ground],
    [ground, ground, ground + 0.08 ** 2 + 0.2 ** 2 + 0.1 ** 2],
  ].flat()
  mean.forEach((value, i) => near(value, expectedMean[i], exact))
  cov.forEach((value, i) => near(value, expectedCov[i], exact))
})

test('another base shifts hold, sound and fog limit alike, by the difference to the usual one', () => {
  const usual = of(touched(START, {}, [PENCIL]))
  const same = of(touched(START, { baseDensity: density(0.15) }, [PENCIL]))
  const paper = of(touched(START, { baseDensity: density(0.35) }, [PENCIL]))
  usual.mean.forEach((value, i) => {
    near(same.mean[i], value, exact)
    near(paper.mean[i], value + 0.2, exact)
  })
  expect(paper.cov).toEqual(usual.cov)
})

test('oracle sound-dose: a coat of 110 um asks 0.225 more for a sound ground, and no more to hold', () => {
  const usual = of(touched(START, {}, [PENCIL]))
  const coat = { thicknessUm: um(110), anchorDepthUm: um(20) }
  const thick = of(touched(START, { coat }, [PENCIL]))
  near(thick.mean[1], usual.mean[1] + 0.225, exact)
  near(thick.mean[0], usual.mean[0], exact)
  near(thick.mean[2], usual.mean[2], exact)
})

test('oracle sound-dose: a coat far thicker than the rule is made for keeps a bounded, wider doubt', () => {
  const usual = of(touched(START, {}, [PENCIL]))
  const coat = { thicknessUm: um(411), anchorDepthUm: um(20) }
  const touch = touched(START, { coat }, [PENCIL])
  const { mean, cov } = of(touch)
  // 0.0075 for 100 um in place of 60, and 0.0015 of doubt for each of the 291 um beyond.
  near(mean[1], usual.mean[1] + 0.3, exact)
  near(cov[4], usual.cov[4] + 0.4365 ** 2, exact)
  near(cov[1], usual.cov[1], exact)
  near(mean[0], usual.mean[0], exact)
  near(cov[8], usual.cov[8], exact)
  // What such a coat asks is learned once: a second screen of it shares the number.
  expect(touched(touch.belief, { coat }, [PENCIL]).belief.entries).toHaveLength(
    touch.belief.entries.length + 2, // a nameless screen and film
  )
})

test('dyed cloth starts 0.18 higher, and who leaves the word out means the cloth that is known', () => {
  const yellow = { fabric: '77-55', dyed: true }
  const touch = touched(START, yellow, [PENCIL])
  near(of(touch).mean[0], 1.013 + 0.18, exact)
  near(of(touched(touch.belief, { fabric: '77-55' }, [PENCIL])).mean[0], 1.013 + 0.18, exact)
  near(of(touched(START, { fabric: '77-55' }, [PENCIL])).mean[0], 1.013, exact)
})

test('a film that was read counts with its own density; another name of a medium is broad', () => {
  const read = { density: density(0.77), densitySd: density(0.05) }
  const { mean, cov } = of(touched(START, {}, [read]))
  near(mean[2], 1.013 - 0.235 + 0.77, exact)
  near(cov[8], cov[0] + 0.08 ** 2 + 0.05 ** 2, exact)
  const strange = mediumPrior('beetroot juice')
  // By hand from the ten rows of the table: mean 12.16/10, variance (16.1198 + 0.6618)/10 − mean².
  near(strange.mean, 1.216, { within: 1e-9, because: 'exact' })
  near(strange.sd, 0.4467, { within: 5e-5, because: 'four decimals' })
})

test('marks of two media on one film share its draw, and one screen', () => {
  const touch = touched(START, { film: 'reeds' }, [PENCIL, { medium: 'Drawing  ink' }])
  const { cov } = of(touch)
  // Fog limits of both: the ground, the skin and the film are common.
  near(cov[2 * 4 + 3], cov[0] + 0.08 ** 2 + 0.1 ** 2, exact)
  expect(placeOf(touch.belief, { kind: 'medium', name: 'drawing ink' })).toBeGreaterThan(0)
})

const wedge: Evidence = {
  kind: 'wedge',
  doseLu: lu(52),
  wedge: { steps: 21, firstDensity: density(0.05), increment: density(0.15) },
  lastSolidStep: 5,
  day: 100,
}
const named = (belief: Belief, kind: 'screen' | 'film', name: string): boolean =>
  placeOf(belief, { kind, name }) >= 0

test('a named screen is remembered for two weeks, an unnamed one not at all', () => {
  const belief = onDay(START, 100)
  const once = taughtBy(belief, { ...wedge, screen: '14' }).belief
  expect(named(once, 'screen', '14')).toBe(true)
  expect(named(onDay(once, 114), 'screen', '14')).toBe(true)
  expect(named(onDay(once, 115), 'screen', '14')).toBe(false)
  const nameless = taughtBy(belief, wedge).belief
  expect(nameless.entries.some(({ kind }) => kind === 'screen')).toBe(false)
})

test('oracle belief-priors: days and lamp hours add their variances, plain seconds ten times as much', () => {
  const variance = (belief: Belief): number => of(touched(belief, { unit: 'the old tubes' })).cov[0]
  const other = (belief: Belief): number => of(touched(belief, { unit: 'the big lamp' })).cov[0]
  const monday = onDay(START, 7)
  near(variance(monday), variance(START), exact)
  near(variance(onDay(monday, 27)), variance(monday) + 20 * 5e-5, exact)
  const lit = atLampHours(monday, { unit: 'the old tubes', hours: 300 })
  const later = atLampHours(lit, { unit: 'the old tubes', hours: 340 })
  near(variance(later), variance(lit) + 40 * 2e-4, exact)
  near(other(later), other(lit), exact)
  const big = atLampHours(atLampHours(monday, { unit: 'the big lamp', hours: 10 }), {
    unit: 'the big lamp',
    hours: 60,
  })
  near(other(big), other(monday) + 50 * 2e-5, exact)
  expect(() => onDay(monday, 6)).toThrow('day: expected 7 or later, got 6')
})
