import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { type Spread, stripShare } from '../core/forecast/spread.ts'
import { near } from '../core/units/near.testing.ts'
import { leakOfCode } from './leakCode.ts'
import { leakMap } from './leakMap.ts'
import { markRowFinder } from './markRows.ts'
import { spreadKernel } from './spreadKernel.ts'
import { type Bar, drawBar, filmOf, seeded } from './testFilms.testing.ts'
import { markFinder, type WeakMarks } from './weakMarks.ts'

const SPREAD: Spread = {
  source: { kind: 'disc', radiusUm: 1.5 },
  halo: { lengthUm: 40, weight: 0.12 },
}
const acts = (code: number): number => -Math.log10(leakOfCode(code))

async function find(
  densities: Float32Array,
  widthPx: number,
  pixelUm: number,
  limitPx = 40,
): Promise<WeakMarks> {
  const finder = markFinder({ longPx: 1000 / pixelUm, keep: 20 })
  const limits = { belowTransmission: 10 ** -0.3, limitPx }
  const rows = markRowFinder(widthPx, limits, finder.push)
  for await (const band of leakMap(filmOf(densities, { widthPx, pixelUm }), SPREAD)) rows.push(band)
  rows.finish()
  return finder.finish()
}

describe('one bar alone', () => {
  test.each([
    { width: 6, density: 3.4, turn: 0 },
    { width: 7, density: 1.1, turn: Math.PI / 2 },
    { width: 15, density: 2.1, turn: 0 },
    { width: 41, density: 3.2, turn: 0 },
  ])(
    'oracle halo-caps: $width pixels of density $density act as the endless line does',
    async ({ width, density, turn }) => {
      const pixelUm = 12
      const side = 620
      const densities = new Float32Array(side * side)
      drawBar(densities, side, {
        x: 310,
        y: 307 + (width % 2) / 2,
        turn,
        length: 560,
        width,
        density,
      })
      const { long } = await find(densities, side, pixelUm)
      expect(long.length).toBe(1)
      const solid = 10 ** -density
      const endless = 1 - (1 - solid) * stripShare((width * pixelUm) / 2, SPREAD)
      const [{ weak }] = long
      const middle = (1 + (width % 2)) / 2 // pixel middles lie half a pixel off an even bar's axis
      near(leakOfCode(weak.leakCode) / endless, 1, {
        within: middle === 1 ? 0.02 : 0.05,
        because: 'pixels of 12 um against a line; the tenth nearest the ends counts',
      })
      near(weak.widthPx, width, { within: 1.5, because: 'whole pixels' })
      near(acts(weak.filmCode), density, { within: 0.001, because: '12 bits of mantissa' })
    },
  )
})

/** Leak at the palest tenth of a bar's middle line, walked as it was drawn: no mask, no axis. */
function tenthAlong(
  { x, y, turn, length, width }: Bar,
  leakAt: (x: number, y: number) => number,
): number {
  const walked: number[] = []
  for (let along = (width - length) / 2; along <= (length - width) / 2; along += 0.5) {
    walked.push(leakAt(x + along * Math.cos(turn), y + along * Math.sin(turn)))
  }
  walked.sort((a, b) => b - a)
  return walked[Math.round(0.1 * (walked.length - 1))]
}

async function leakOf(
  densities: Float32Array,
  widthPx: number,
  pixelUm: number,
): Promise<Float64Array> {
  const leak = new Float64Array(densities.length)
  for await (const band of leakMap(filmOf(densities, { widthPx, pixelUm }), SPREAD)) {
    leak.set(Float64Array.from(band.codes, leakOfCode), band.top * widthPx)
  }
  return leak
}

function barFilm(
  seed: number,
): Readonly<{ densities: Float32Array; widthPx: number; bars: readonly Bar[] }> {
  const next = seeded(seed)
  const widthPx = 900
  const densities = new Float32Array(widthPx * 700)
  const bars: Bar[] = []
  for (let row = 0; row < 3; row += 1) {
    for (let column = 0; column < 4; column += 1) {
      const bar: Bar = {
        x: 115 + 220 * column + 10 * next(),
        y: 115 + 225 * row + 10 * next(),
        turn: Math.PI * next(),
        length: 120 + 60 * next(),
        width: 5 + 22 * next(),
        density: 0.7 + 2.6 * next(),
      }
      bars.push(bar)
      drawBar(densities, widthPx, bar)
    }
  }
  return { densities, widthPx, bars }
}

test('invariant: the ring sits on the weakest of twelve bars lying anyhow, whichever it is', async () => {
  const pixelUm = 20
  const chosen = new Set<number>()
  await fc.assert(
    fc.asyncProperty(fc.integer({ min: 1, max: 10_000 }), async (seed) => {
      const { densities, widthPx, bars } = barFilm(seed)
      const leak = await leakOf(densities, widthPx, pixelUm)
      const leaks = bars.map((bar) =>
        tenthAlong(bar, (x, y) => leak[Math.floor(y) * widthPx + Math.floor(x)]),
      )
      const ranked = leaks.map((value, at) => ({ value, at })).sort((a, b) => b.value - a.value)
      fc.pre(ranked[0].value > 1.15 * ranked[1].value) // a clear loser, or there is nothing to ask
      const { long } = await find(densities, widthPx, pixelUm)
      expect(long.length).toBe(bars.length)
      const { x, y, turn, length, width } = bars[ranked[0].at]
      const [dx, dy] = [long[0].weak.x + 0.5 - x, long[0].weak.y + 0.5 - y]
      expect(Math.abs(dx * Math.cos(turn) + dy * Math.sin(turn))).toBeLessThan(length / 2)
      expect(Math.abs(dy * Math.cos(turn) - dx * Math.sin(turn))).toBeLessThan(width / 2)
      near(leakOfCode(long[0].weak.leakCode) / ranked[0].value, 1, {
        within: 0.2,
        because: 'on a bar 100 um wide the nearest pixel lies up to 10 um beside the middle line',
      })
      chosen.add(ranked[0].at)
    }),
    { seed: 815, numRuns: 4 },
  )
  expect(chosen.size).toBeGreaterThan(3)
})

test('a mark that pales along its way counts by the tenth that is palest', async () => {
  const [widthPx, pixelUm] = [1400, 25]
  const densities = new Float32Array(widthPx * 80)
  for (let x = 100; x < 1300; x += 1) {
    for (let y = 30; y < 60; y += 1) densities[y * widthPx + x] = 2 - (1.4 * (x - 100)) / 1200
  }
  const { long } = await find(densities, widthPx, pixelUm)
  const [{ weak }] = long
  // a tenth of the way from the pale end: density 0.74 there, and the ring lies there too
  near(acts(weak.leakCode), 0.74, { within: 0.05, because: 'light from beside 0.75 mm takes 0.03' })
  near(weak.x, 1180, { within: 40, because: 'the axis is 1,200 pixels long, less its ends' })
})

test('specks and dots do not set the dose while there are marks, and do when there are none', async () => {
  const widthPx = 400
  const dots = new Float32Array(widthPx * 400)
  for (let dot = 0; dot < 100; dot += 1) {
    const [cx, cy] = [20 + 40 * (dot % 10), 20 + 40 * Math.floor(dot / 10)]
    drawBar(dots, widthPx, {
      x: cx,
      y: cy,
      turn: 0,
      length: 8,
      width: 8,
      density: dot < 5 ? 0.6 : 1.5,
    })
  }
  const alone = await find(dots, widthPx, 25)
  expect(alone).toMatchObject({ long: [], longCount: 0, shortCount: 100 })
  // five of a hundred are paler; the tenth is one of the others
  expect(acts(alone.shortTenth?.weak.filmCode ?? 0)).toBeCloseTo(1.5, 2)
  drawBar(dots, widthPx, { x: 200, y: 200, turn: 0, length: 150, width: 22, density: 2.4 })
  const both = await find(dots, widthPx, 25)
  expect(both.longCount).toBe(1)
  expect(acts(both.long[0].weak.filmCode)).toBeCloseTo(2.4, 2)
})

test('a wide wash is judged all over, not only where its middle line would run', async () => {
  const [widthPx, pixelUm, limitPx] = [500, 40, 25]
  const wash = new Float32Array(widthPx * 500)
  for (let y = 50; y < 450; y += 1) {
    for (let x = 50; x < 450; x += 1) wash[y * widthPx + x] = x > 300 && y > 300 ? 0.8 : 1.2
  }
  const { long } = await find(wash, widthPx, pixelUm, limitPx)
  // the pale corner is about a seventh of the wash
  near(acts(long[0].weak.leakCode), 0.8, {
    within: 0.01,
    because: 'inside, only film density counts',
  })
  expect(Math.min(long[0].weak.x, long[0].weak.y)).toBeGreaterThan(299)
})

test('a line down the whole of a tall film has its axis in every row', async () => {
  const [widthPx, heightPx, pixelUm] = [90, 1500, 40]
  for (const width of [1, 2, 5, 8]) {
    const densities = new Float32Array(widthPx * heightPx)
    for (let y = 0; y < heightPx; y += 1)
      densities.fill(1.8, y * widthPx + 30, y * widthPx + 30 + width)
    const { long, axisCodes } = await find(densities, widthPx, pixelUm, 60)
    expect(long.length).toBe(1)
    const points = axisCodes.reduce((sum, count) => sum + count, 0)
    expect(points).toBe(long[0].axisPoints)
    // the two ends are square: the axis stops half a width before them
    expect(Math.abs(points - (heightPx - width))).toBeLessThanOrEqual(width + 2)
    near(long[0].weak.widthPx, width, { within: 0.01, because: 'whole pixels, straight down' })
  }
})

test.each([
  { width: 1, density: 3.5 },
  { width: 5, density: 1.4 },
  { width: 13, density: 3.5 },
  { width: 31, density: 2.6 },
])(
  'a line $width pixels wide acts within 1 % as the kernel’s own columns say',
  async ({ width, density }) => {
    const [widthPx, pixelUm] = [1400, 24]
    const densities = new Float32Array(widthPx * 140)
    for (let y = 60; y < 60 + width; y += 1)
      densities.fill(density, y * widthPx + 40, y * widthPx + 1360)
    const { reachPx, weights } = spreadKernel(SPREAD, { pixelUm })
    const side = 2 * reachPx + 1
    let covered = 0
    for (let at = 0; at < weights.length; at += 1) {
      if (Math.abs(Math.floor(at / side) - reachPx) <= (width - 1) / 2) covered += weights[at]
    }
    const { long } = await find(densities, widthPx, pixelUm)
    const leak = 1 - (1 - 10 ** -density) * covered
    near(leakOfCode(long[0].weak.leakCode) / leak, 1, {
      within: 0.01,
      because: 'the contract’s own bound on the dose at which the weakest mark closes',
    })
  },
)
