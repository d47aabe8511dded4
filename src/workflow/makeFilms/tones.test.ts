import { expect, test } from 'vitest'
import { near } from '../../core/units/near.testing.ts'
import { planFromJson } from './readPlan.ts'
import { toneWords } from './toneWords.ts'

const planOf = (plan: object) => planFromJson(JSON.stringify({ widthMm: 100, ...plan }))

test('a fabric holds dots as wide as its pitch, scatters what is paler, and says so', () => {
  const plan = planOf({ mode: 'single', fabric: '90-48' })
  const [ink] = plan.inks
  // a pitch of 111.1 um in cells of 555.6 um: π/4 · 0.2², and islands of 159.1 um
  near(ink?.tones?.least ?? 0, (Math.PI / 4) * 0.2 ** 2, { within: 1e-9, because: 'by hand' })
  near(ink?.tones?.most ?? 0, 1 - (Math.PI / 4) * (159.111 / 555.556) ** 2, {
    within: 1e-5,
    because: 'by hand',
  })
  expect(toneWords(plan)).toEqual([
    'Tones of black paler than 3.1 % and fuller than 93.6 % are made of scattered dots 0.16 mm wide.',
  ])
})

test('an ink’s own tones come before the fabric’s, flat colours have none, scattered dots are a pitch', () => {
  const own = planOf({
    mode: 'single',
    fabric: '90-48',
    inks: [{ name: 'red', lab: [50, 60, 40], tones: { least: 0.1, most: 0.8 } }],
  })
  expect(toneWords(own)).toEqual([
    'Tones of red paler than 10 % and fuller than 80 % go to the nearest that is printed, or to none or solid.',
  ])
  const inks = [{ name: 'red', lab: [50, 60, 40] }]
  expect(toneWords(planOf({ mode: 'line', inks, fabric: '90-48' }))).toEqual([])
  const scattered = planOf({ mode: 'single', fabric: '90-48', halftone: { kind: 'stochastic' } })
  expect(scattered.halftone).toMatchObject({ kind: 'stochastic', dotUm: 10_000 / 90 })
})

test('tones have six colours at most, however many inks take them', () => {
  const takes = [
    [50, 60, 40],
    [60, 50, 30],
    [70, 40, 20],
  ]
  const inks = ['red', 'green', 'blue'].map((name) => ({ name, lab: [50, 60, 40], takes }))
  expect(planOf({ mode: 'line', inks }).inks).toHaveLength(3)
  expect(() => planOf({ mode: 'spot', inks })).toThrow(
    'Mode "spot" parts 6 colours at most, and the inks take 9',
  )
  expect(planOf({ mode: 'spot', inks: inks.slice(0, 2) }).inks).toHaveLength(2)
})

test('four inks are kept to a limit by the plan, and the shop’s tints are the page’s to write out', () => {
  expect(planOf({ mode: 'process', limits: { coverage: 2.2 } }).limits?.coverage).toBe(2.2)
  expect(planOf({ mode: 'process', limits: { coverage: 3.1 } }).limits?.coverage).toBe(3.1)
  expect(() => planOf({ mode: 'process', limits: { coverage: 0.4 } })).toThrow('limits.coverage')
  expect(() => planOf({ mode: 'process', limits: { inks: 3 } })).toThrow('limits.inks')
  expect(() => planOf({ mode: 'single', limits: { coverage: 2 } })).toThrow('"spot" or "process"')
  const inks = [{ name: 'red', lab: [50, 60, 40], printed: 'shop' }]
  expect(() => planOf({ mode: 'single', inks })).toThrow('must be written out')
})
