import { describe, expect, test } from 'vitest'
import { plainView } from '../../core/inspection/lens.ts'
import { near } from '../../core/units/near.testing.ts'
import { clearLight } from './clearLight.ts'
import { turnToDensities } from './densities.ts'
import { grainOf } from './grain.ts'
import { laidFlat, photoPixelMm } from './laidFlat.ts'
import type { Sheet } from './photoLight.ts'
import { reduced } from './reduced.ts'
import { edgeSpreadPx } from './sharpness.ts'
import { slotWedge } from './slotWedge.ts'
import { wedgeSteps } from './wedgeSteps.ts'

function sheetOf(
  { widthPx, heightPx, pixelMm = 1 }: { widthPx: number; heightPx: number; pixelMm?: number },
  light: (x: number, y: number) => number,
): Sheet {
  const values = Float32Array.from({ length: widthPx * heightPx }, (_, at) =>
    light((at % widthPx) + 0.5, Math.floor(at / widthPx) + 0.5),
  )
  return { widthPx, heightPx, pixelMm, values }
}

/** Noise of a mean of 0 and an sd of 1, the same every time. */
function noise(seed: number): () => number {
  let state = seed
  const next = (): number => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0
    return (state + 0.5) / 2 ** 32
  }
  return () => Math.sqrt(-2 * Math.log(next())) * Math.cos(2 * Math.PI * next())
}

test('a slope of light seen askew lies flat with its own slope', () => {
  const photo = sheetOf({ widthPx: 200, heightPx: 160 }, (x, y) => 0.001 * x + 0.002 * y)
  const corners = [
    { x: 30, y: 20 },
    { x: 170, y: 20 },
    { x: 170, y: 120 },
    { x: 30, y: 120 },
  ]
  const own = [
    { x: 0, y: 0 },
    { x: 70, y: 0 },
    { x: 70, y: 50 },
    { x: 0, y: 50 },
  ]
  const view = plainView(
    own.map((from, at) => ({ from, to: corners[at] ?? from })),
    photo,
  )
  if (view === null) throw new Error('no view')
  near(photoPixelMm(view, { x: 30, y: 20 }), 0.5, { within: 1e-9, because: '140 px are 70 mm' })
  const box = { xMm: 0, yMm: 0, widthMm: 70, heightMm: 50 }
  const flat = laidFlat(photo, { view, box, pixelMm: 0.7 })
  expect([flat.widthPx, flat.heightPx]).toEqual([100, 71])
  const [column, row] = [40, 25]
  const [x, y] = [30 + 2 * 0.7 * (column + 0.5), 20 + 2 * 0.7 * (row + 0.5)]
  near(flat.values[row * 100 + column] ?? 0, 0.001 * x + 0.002 * y, {
    within: 1e-6,
    because: 'a plane is interpolated exactly',
  })
})

test('what the photo does not show is not a number', () => {
  const photo = sheetOf({ widthPx: 40, heightPx: 40 }, () => 0.5)
  const view = plainView(
    [
      { from: { x: 0, y: 0 }, to: { x: 20, y: 0 } },
      { from: { x: 40, y: 0 }, to: { x: 60, y: 0 } },
      { from: { x: 40, y: 40 }, to: { x: 60, y: 40 } },
      { from: { x: 0, y: 40 }, to: { x: 20, y: 40 } },
    ],
    photo,
  )
  if (view === null) throw new Error('no view')
  const box = { xMm: 0, yMm: 0, widthMm: 40, heightMm: 40 }
  const { values } = laidFlat(photo, { view, box, pixelMm: 1 })
  expect(values[20 * 40 + 5]).toBeCloseTo(0.5, 6)
  expect(values[20 * 40 + 35]).toBeNaN()
})

test('a smaller picture is the mean of what it covers', () => {
  const small = reduced(
    sheetOf({ widthPx: 7, heightPx: 4 }, (x, y) => x + 10 * y),
    3,
  )
  expect([small.widthPx, small.heightPx]).toEqual([2, 1])
  expect([...small.values].map((value) => Math.round(10 * value) / 10)).toEqual([16.5, 19.5])
})

describe('the clear light', () => {
  const table = (x: number, y: number): number =>
    0.8 * (1 - 0.3 * ((x / 200 - 0.4) ** 2 + (y / 150 - 0.6) ** 2))
  const inside = { left: 20, top: 20, right: 180, bottom: 130 }
  const isFilm = (x: number, y: number): boolean => x > 20 && x < 180 && y > 20 && y < 130

  test('is the table’s under the film’s base, whatever is drawn on it', () => {
    const marks = (x: number, y: number): number =>
      Math.floor(x / 12) % 2 === 0 && Math.floor(y / 9) % 3 !== 0 ? 0.2 + (x % 12) / 8 : 0
    const light = clearLight(
      sheetOf({ widthPx: 200, heightPx: 150 }, (x, y) =>
        isFilm(x, y) ? table(x, y) * 10 ** -(0.15 + marks(x, y)) : table(x, y),
      ),
      inside,
    )
    if (light === null) throw new Error('no light')
    near(light.base ?? 0, 0.15, { within: 0.01, because: 'the base that was put in' })
    for (const [x, y] of [
      [30, 30],
      [100, 75],
      [170, 120],
    ] as const) {
      near(light.logAt(x, y), Math.log10(table(x, y)) - 0.15, {
        within: 0.006,
        because: 'a smooth surface for a smooth light',
      })
    }
    expect(light.clearShare).toBeGreaterThan(0.4)
  })

  test('is not to be had where nothing is lit', () => {
    expect(
      clearLight(
        sheetOf({ widthPx: 60, heightPx: 60 }, () => 0),
        inside,
      ),
    ).toBeNull()
  })
})

test.each([0.8, 1.5, 2.5])('an edge spread by %f pixels is said to be so', (sigma) => {
  const random = noise(3)
  // the integral of a Gauss, by its sum over whole steps
  const step = (x: number): number => {
    let sum = 0
    for (let t = -40; t < 10 * x; t += 1) sum += Math.exp(-((t / 10 / sigma) ** 2) / 2)
    return sum / (10 * sigma * Math.sqrt(2 * Math.PI))
  }
  const rise = Array.from({ length: 40 }, (_, at) => step(at - 19.7))
  const sheet = sheetOf({ widthPx: 240, heightPx: 120 }, (x) => {
    const at = Math.floor(x) % 80 // up, and down again
    return 0.05 + 0.8 * (rise[at < 40 ? at : 79 - at] ?? 0) + 0.002 * random()
  })
  near(edgeSpreadPx(sheet, { least: 0.3 })?.photoPx ?? 0, sigma, {
    within: 0.12 * sigma + 0.05,
    because: 'noise of 1 in 400 on the flanks, and the sharpest fifth is told',
  })
})

test('grain is that of even film, not of what is drawn', () => {
  const random = noise(9)
  const sheet = sheetOf({ widthPx: 300, heightPx: 300 }, (x, y) => {
    const drawn = y > 100 && Math.sin(x) * Math.sin(1.3 * y) > 0.2
    return (drawn ? 0.1 : 0.7) + 0.01 * random()
  })
  const grain = grainOf(sheet, { clearLight: 0.7, steps: [] })
  near(grain(0.7), 0.01, { within: 0.0025, because: 'blocks of 25 pixels, the quietest fifth' })
  expect(grain(0.1)).toBeLessThan(0.012)
})

test('wedge steps are told by the ends of the wedge or the middles of its end steps alike', () => {
  const wedge = sheetOf({ widthPx: 260, heightPx: 40 }, (x) =>
    x < 20 || x >= 230 ? 0.9 : 0.9 * 10 ** (-0.15 * Math.floor((x - 20) / 10)),
  )
  for (const [from, to] of [
    [20, 230],
    [25, 225],
  ] as const) {
    const ends = [
      { x: from, y: 20 },
      { x: to, y: 20 },
    ] as const
    const steps = wedgeSteps(wedge, { ends, count: 21 })
    expect(steps).toHaveLength(21)
    steps?.forEach(({ light }, at) =>
      near(Math.log10(light), Math.log10(0.9) - 0.15 * at, { within: 1e-4, because: 'as drawn' }),
    )
  }
  const beyond = [
    { x: 100, y: 20 },
    { x: 400, y: 20 },
  ] as const
  expect(wedgeSteps(wedge, { ends: beyond, count: 21 })).toBeNull()
})

describe('a slot', () => {
  const size = { widthPx: 1600, heightPx: 170, pixelMm: 0.1 }
  const random = noise(1)

  test('tells where the wedge in it lies, and its bare light', () => {
    const slot = sheetOf(size, (x) => {
      const step = Math.floor((x / 10 - 9.3) / 6.8)
      const density = step < 0 || step > 20 ? 0 : 0.05 + 0.15 * step
      return bentLight(x / 10) * 10 ** -density + 0.003 + 0.001 * random()
    })
    // that it bends is known from elsewhere, not how bright it is nor how it slopes
    const shapeAt = (xMm: number) => -0.2 + xMm / 900 + Math.log10(bentLight(xMm))
    const found = slotWedge(slot, { count: 21, shapeAt })
    if (found === null) throw new Error('no wedge')
    near(found.fromMm, 9.3, { within: 0.3, because: 'a first step of 0.05 D' })
    near(found.toMm, 9.3 + 21 * 6.8, { within: 0.5, because: 'a steep end' })
    near(10 ** found.bareAt(80), bentLight(80), { within: 0.01, because: 'the light put in' })
  })

  test('with nothing in it, or something else, has no wedge', () => {
    expect(
      slotWedge(
        sheetOf(size, () => 0.8 + 0.01 * random()),
        { count: 21, shapeAt: () => 0 },
      ),
    ).toBeNull()
    const hand = sheetOf(size, (x) => 0.4 + 0.35 * Math.sin(x / 90))
    expect(slotWedge(hand, { count: 21, shapeAt: () => 0 })).toBeNull()
  })
})

/** Brighter in the middle of a slot of 160 mm than at its ends, by a tenth. */
function bentLight(xMm: number): number {
  return 0.8 * (1 - xMm / 1600) * (1 + 0.1 * (1 - ((xMm - 80) / 80) ** 2))
}

test('light becomes density, and what the photo cannot tell is counted', () => {
  const sheet = sheetOf({ widthPx: 100, heightPx: 10 }, (x) =>
    x < 50 ? 0.5 * 10 ** -0.8 : x < 70 ? 0.5 * 10 ** -3 : x < 80 ? 1 : x < 90 ? 0.8 : Number.NaN,
  )
  const beyond = turnToDensities(sheet, {
    logClear: () => Math.log10(0.5),
    densityOf: (seen) => seen,
    highest: 2.3,
  })
  near(sheet.values[10] ?? 0, 0.8, { within: 0.001, because: 'a table of 0.001 D' })
  expect(sheet.values[60]).toBeCloseTo(2.3, 5)
  expect(sheet.values[95]).toBe(0)
  expect(beyond).toEqual({
    darkShare: 0.2,
    clippedShare: 0.1,
    glareShare: 0.1,
    unseenShare: 0.1,
    markedShare: 0.7,
  })
})
