import { expect, test } from 'vitest'
import { placesIn } from './artworkSamples.ts'
import {
  dotKindOf,
  edgeOf,
  inksOf,
  planRead,
  stockOf,
  withDots,
  withEdge,
  withInk,
  withInkChanged,
  withInkEarlier,
  withMode,
} from './planFile.ts'

const SHOP = [
  { id: 'a', name: 'moon', lab: [83, 8, 71] as [number, number, number], opacity: 0.4 },
  { id: 'b', name: 'water', lab: [45, -28, -12] as [number, number, number], opacity: 0.6 },
]
const ROOM = { inks: SHOP, inkLimit: 2.3, statesCmyk: false }
const PLAIN = { mode: 'single', widthMm: 400 }

test('an ink more parts into spot colours, each turned from the others and called by its own name', () => {
  const file = [...SHOP, ...SHOP.slice(0, 1)].reduce(withInk, PLAIN)
  const { plan, wrong } = planRead(file)
  expect(wrong).toBeNull()
  expect(plan?.mode).toBe('spot')
  expect(plan?.inks.map(({ name }) => name)).toEqual(['moon', 'water', 'moon 2'])
  const angles = plan?.inks.map(({ angleDeg }) => angleDeg) ?? []
  expect(new Set(angles).size).toBe(3)
})

test('an ink is printed earlier, and its tones are kept to what holds', () => {
  const file = withInkEarlier(SHOP.reduce(withInk, PLAIN), 1)
  const held = withInkChanged(file, 0, { tones: { least: 0.04, most: 0.9 } })
  expect(planRead(held).plan?.inks.map(({ name, tones }) => [name, tones?.least])).toEqual([
    ['water', 0.04],
    ['moon', undefined],
  ])
})

test('every way of parting is a plan that can be read', () => {
  for (const mode of ['process', 'single', 'line', 'spot'] as const) {
    const { plan } = planRead(withMode({ ...PLAIN }, mode, ROOM))
    expect(plan?.mode).toBe(mode)
  }
  expect(inksOf(withMode(SHOP.reduce(withInk, PLAIN), 'single', ROOM))).toHaveLength(1)
})

test('our own four inks keep to the shop’s limit, and a maker’s plates are left as they are', () => {
  expect(withMode(PLAIN, 'process', ROOM)).toMatchObject({ limits: { coverage: 2.3 } })
  const parted = withMode(PLAIN, 'process', { ...ROOM, statesCmyk: true })
  expect(planRead(parted).plan?.limits).toBeUndefined()
  expect(inksOf(parted).every(({ printed }) => printed === undefined)).toBe(true)
})

test('dots and edges are written as plans say them, and read back', () => {
  for (const kind of ['round', 'elliptical', 'line', 'stochastic', 'none'] as const) {
    const { plan } = planRead(withDots(PLAIN, kind, { rulingPerCm: 24, dotUm: 111.1 }))
    expect(plan === null ? '' : dotKindOf(plan.halftone)).toBe(kind)
  }
  for (const way of ['stay', 'spread', 'choke'] as const) {
    const { plan } = planRead(withEdge(withEdge(PLAIN, 'choke', 70), way, 130))
    expect(plan && edgeOf(plan)).toEqual({ way, um: way === 'stay' ? 0 : 130 })
  }
})

test('what cannot be says which blank it is', () => {
  expect(planRead({ ...PLAIN, resolutionDpi: 9 }).wrong?.field).toBe('resolutionDpi')
  const { plan } = planRead({ ...PLAIN, paper: [94, 1, 9] })
  expect(plan && stockOf(plan)).toBe('cream')
})

test('a cut over the rim of a tile touches both', () => {
  const cut = { left: 500, top: 0, right: 513, bottom: 512 }
  expect(placesIn(cut, 512)).toEqual([
    { x: 0, y: 0 },
    { x: 1, y: 0 },
  ])
})
