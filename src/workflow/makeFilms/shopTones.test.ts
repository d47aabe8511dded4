import { expect, test } from 'vitest'
import { planFromJson } from './readPlan.ts'
import { type ShopTones, shopTonesFor, withShopTones } from './shopTones.ts'
import { inksOfFile, usualPlan } from './usualPlan.ts'

const tones = (id: string, more: Partial<ShopTones> = {}): ShopTones => ({
  id,
  ink: 'Blue',
  fabric: 'fine',
  dots: 'ruled',
  rulingPerCm: 20,
  tints: [[0.5, 0.6]],
  at: '2026-05-03T10:00:00.000Z',
  ...more,
})
const dots = (rulingPerCm: number) =>
  ({ kind: 'dot', shape: 'round', rulingPerCm, angleDeg: 15 }) as const

test('tints count for their ink, fabric and about their ruling; the newest of one ruling, else the nearest', () => {
  const known = [
    tones('newer'),
    tones('older'),
    tones('near', { rulingPerCm: 22 }),
    tones('other', { fabric: 'coarse' }),
  ]
  const found = (ink: string, fabric: string | null, rulingPerCm: number): string | undefined =>
    shopTonesFor(known, { ink, fabric, halftone: dots(rulingPerCm) })?.id
  expect(found('blue ', 'fine', 20)).toBe('newer')
  expect(found('blue', 'fine', 22.5)).toBe('near')
  expect(found('blue', 'fine', 25)).toBeUndefined()
  expect(found('blue', 'coarse', 19)).toBe('other')
  expect(found('red', 'fine', 20)).toBeUndefined()
  expect(found('blue', null, 20)).toBeUndefined()
  const scattered = { kind: 'stochastic', seed: 3, dotUm: 500 } as const
  expect(shopTonesFor(known, { ink: 'blue', fabric: 'fine', halftone: scattered })).toBeNull()
})

test('a proposed plan prints by the shop’s tints, written out for the films; without them tints stay', () => {
  const inks = [{ name: 'blue', lab: [40, 0, -40] as const, opacity: 0.5 }]
  const plan = usualPlan({ proportion: 1, widthMm: 100 }, { inks, fabric: null })
  const file = { ...plan, halftone: dots(20) }
  const [known] = planFromJson(
    JSON.stringify(withShopTones(file, { known: [tones('own')], fabric: 'fine' })),
  ).inks
  expect(known?.printed).toEqual([[0.5, 0.6]])
  const [unknown] = planFromJson(
    JSON.stringify(withShopTones(file, { known: [tones('own')], fabric: 'coarse' })),
  ).inks
  expect(unknown?.printed).toBeUndefined()
})

test('a page with more than its own inks gets black for it, unless it has one', () => {
  const red = { name: 'Buoy Red', lab: [50, 60, 40] as const }
  const own = { name: 'Black', lab: [16, 0, 0] as const }
  const named = (ownInks: readonly (typeof red | typeof own)[], hasMore: boolean) =>
    inksOfFile(
      usualPlan({ proportion: 1, widthMm: 100, ownInks, hasMore }, { inks: [], fabric: null }),
    )
  expect(named([red], false)).toEqual(['buoy red'])
  expect(named([red], true)).toEqual(['buoy red', 'black'])
  expect(named([red, own], true)).toEqual(['buoy red', 'black'])
})
