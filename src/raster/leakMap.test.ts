import { describe, expect, test } from 'vitest'
import {
  haloShareInside,
  type Spread,
  sourceReachUm,
  sourceShareInside,
} from '../core/forecast/spread.ts'
import type { Film } from './film.ts'
import { filmOfPart, filmParts } from './filmParts.ts'
import { codeOfLeak, leakOfCode } from './leakCode.ts'
import { leakMap, leakMapper, leakRowsAround } from './leakMap.ts'
import { plainTiles } from './plainTiles.ts'
import { spreadKernel } from './spreadKernel.ts'
import { filmOf, seeded } from './testFilms.testing.ts'

/**
 * The contract's kernel by brute force, written apart from the code under test: the source as
 * rings of points, each with its halo as rings of points, dropped into pixels and counted.
 */
function kernelByPoints(spread: Spread, pixelUm: number, reachPx: number): Float64Array {
  const side = 2 * reachPx + 1
  const grid = new Float64Array(side * side)
  const { lengthUm, weight } = spread.halo
  const inside = (r: number): number => sourceShareInside(r, spread.source)
  const halo = rings(16 * lengthUm, (r) => haloShareInside(r, lengthUm), 900)
  const drop = (x: number, y: number, mass: number): void => {
    const column = Math.round(x / pixelUm) + reachPx
    const row = Math.round(y / pixelUm) + reachPx
    if (column >= 0 && column < side && row >= 0 && row < side) grid[row * side + column] += mass
  }
  const next = seeded(77)
  const around = (
    rings: readonly Ring[],
    count: number,
    use: (x: number, y: number, mass: number) => void,
  ): void => {
    for (const [r, mass] of rings) {
      const shift = next()
      for (let at = 0; at < count; at += 1) {
        const angle = ((at + shift) * 2 * Math.PI) / count
        use(r * Math.cos(angle), r * Math.sin(angle), mass / count)
      }
    }
  }
  const reach = sourceReachUm(spread.source)
  around(rings(reach, inside, 3000), 1440, (x, y, mass) => drop(x, y, (1 - weight) * mass))
  around(rings(reach, inside, 60), 10, (sx, sy, mass) => {
    around(halo, 32, (x, y, part) => drop(sx + x, sy + y, weight * mass * part))
  })
  const sum = grid.reduce((total, value) => total + value, 0)
  return grid.map((value) => value / sum)
}

/** Radius and share of the light. */
type Ring = readonly [number, number]

function rings(reach: number, inside: (r: number) => number, count: number): readonly Ring[] {
  if (reach === 0) return [[0, 1]]
  return Array.from({ length: count }, (_, at) => {
    const [from, to] = [(reach * at) / count, (reach * (at + 1)) / count]
    return [(from + to) / 2, inside(to) - inside(from)] as const
  })
}

/** 64-bit sum over the kernel at every pixel, clear film outside. */
function direct(
  densities: Float32Array,
  widthPx: number,
  kernel: Float64Array,
  reachPx: number,
): Float64Array {
  const heightPx = densities.length / widthPx
  const light = Float64Array.from(densities, (d) => 10 ** -d)
  return Float64Array.from(light, (_, at) => {
    const [x, y] = [at % widthPx, Math.floor(at / widthPx)]
    let sum = 0
    for (let j = -reachPx; j <= reachPx; j += 1) {
      for (let i = -reachPx; i <= reachPx; i += 1) {
        const [px, py] = [x + i, y + j]
        const outside = px < 0 || py < 0 || px >= widthPx || py >= heightPx
        const weight = kernel[(j + reachPx) * (2 * reachPx + 1) + i + reachPx]
        sum += weight * (outside ? 1 : light[py * widthPx + px])
      }
    }
    return sum
  })
}

async function leakOf(film: Film, spread: Spread): Promise<Float64Array> {
  const leak = new Float64Array(film.widthPx * film.heightPx)
  for await (const band of leakMap(film, spread)) {
    leak.set(Float64Array.from(band.codes, leakOfCode), band.top * film.widthPx)
  }
  return leak
}

/** The same film as bytes: its densities in so many steps of transmission. */
function codedFilm(
  densities: Float32Array,
  { widthPx, pixelUm, tones }: Readonly<{ widthPx: number; pixelUm: number; tones: number }>,
): Film {
  const step = 255 / (tones - 1)
  const samples = Uint8Array.from(densities, (d) => step * Math.round((255 * 10 ** -d) / step))
  return {
    widthPx,
    heightPx: densities.length / widthPx,
    pixelUm,
    transmissionOf: Float32Array.from({ length: 256 }, (_, at) => Math.max(10 ** -3.5, at / 255)),
    async *bands() {
      yield { top: 0, rows: densities.length / widthPx, samples }
    },
  }
}

/** Wide soft discs, thin lines and specks: everything a film has. */
function film(widthPx: number, heightPx: number, seed: number): Float32Array {
  const next = seeded(seed)
  const densities = new Float32Array(widthPx * heightPx)
  for (let at = 0; at < densities.length; at += 1) {
    const [x, y] = [at % widthPx, Math.floor(at / widthPx)]
    const inDisc = Math.hypot(x - widthPx * 0.6, y - heightPx * 0.4) < widthPx / 5
    if (inDisc) densities[at] = 2.7
    else if (x % 29 < 2 && y > heightPx / 3) densities[at] = 1.3
    else if (next() < 0.03) densities[at] = 3.4 * next()
  }
  return densities
}

const SPREADS: readonly (readonly [string, Spread, number])[] = [
  [
    'small lamp',
    { source: { kind: 'disc', radiusUm: 1.46 }, halo: { lengthUm: 40, weight: 0.12 } },
    35,
  ],
  [
    'large lamp, dyed fabric',
    { source: { kind: 'disc', radiusUm: 57 }, halo: { lengthUm: 25, weight: 0.04 } },
    23,
  ],
  [
    'bank of tubes',
    { source: { kind: 'bank', gapUm: 11 }, halo: { lengthUm: 33, weight: 0.2 } },
    42,
  ],
]

describe.each(SPREADS)('%s', (_, spread, pixelUm) => {
  test('oracle spread-contract: every pixel within 1e-4 of a direct sum over a kernel made of points', async () => {
    const [widthPx, heightPx] = [171, 148]
    const densities = film(widthPx, heightPx, 5)
    const reachPx = Math.ceil((sourceReachUm(spread.source) + 12 * spread.halo.lengthUm) / pixelUm)
    const kernel = kernelByPoints(spread, pixelUm, reachPx)
    const expected = direct(densities, widthPx, kernel, reachPx)
    const leak = await leakOf(filmOf(densities, { widthPx, pixelUm }), spread)
    const worst = leak.reduce(
      (most, value, at) => Math.max(most, Math.abs(value - expected[at])),
      0,
    )
    // rounding of the codes takes 6.1e-5 of it
    expect(worst).toBeLessThan(1e-4)
  })
})

/** Films of two tones, 1 = black: dots of 16 pixels at an angle, lettering, noise. */
const PICTURES: Readonly<Record<string, (x: number, y: number, next: () => number) => boolean>> = {
  dots: (x, y) =>
    Math.cos(0.37 * x + 0.153 * y) + Math.cos(0.37 * y - 0.153 * x) > 1.6 * Math.sin(x / 170),
  lettering: (x, y) => ((x >> 5) + (y >> 5)) % 3 === 0 && (x % 11 < 4 || y % 13 < 2),
  noise: (_x, _y, next) => next() < 0.4,
}

test.each(Object.entries(PICTURES))(
  'classes of a film of %s differ from a direct 64-bit sum in at most 0.2 % of pixels, shares by 0.002',
  async (_, draw) => {
    const [widthPx, heightPx, pixelUm] = [330, 210, 35]
    const next = seeded(21)
    const densities = Float32Array.from({ length: widthPx * heightPx }, (_, at) =>
      draw(at % widthPx, Math.floor(at / widthPx), next) ? 3.5 : 0,
    )
    const spread = SPREADS[0][1]
    const { reachPx, weights } = spreadKernel(spread, { pixelUm })
    const expected = direct(densities, widthPx, weights, reachPx)
    const leak = await leakOf(codedFilm(densities, { widthPx, pixelUm, tones: 2 }), spread)
    // the least leak that hardens the coat at a low, a usual and a high dose
    for (const least of [0.6, 0.25, 0.06]) {
      const other = leak.filter((value, at) => value >= least !== expected[at] >= least).length
      const share = (values: Float64Array): number =>
        values.filter((value) => value >= least).length / values.length
      expect(other / leak.length).toBeLessThanOrEqual(0.002)
      expect(Math.abs(share(leak) - share(expected))).toBeLessThanOrEqual(0.002)
      expect(share(expected)).toBeGreaterThan(0.05)
    }
  },
)

test('rows handed over one by one or all at once give the same codes', async () => {
  const densities = film(300, 260, 9)
  const spread = SPREADS[0][1]
  const all = await leakOf(filmOf(densities, { widthPx: 300, pixelUm: 30, bandRows: 260 }), spread)
  const single = await leakOf(filmOf(densities, { widthPx: 300, pixelUm: 30, bandRows: 1 }), spread)
  expect(single).toEqual(all)
})

test('clear film stays clear to the bit, and a blank solid sheet is its own density inside', async () => {
  const clear = await leakOf(
    filmOf(new Float32Array(90 * 80), { widthPx: 90, pixelUm: 40 }),
    SPREADS[0][1],
  )
  expect(new Set(clear)).toEqual(new Set([1]))
  const solid = new Float32Array(400 * 400).fill(1.9)
  const leak = await leakOf(filmOf(solid, { widthPx: 400, pixelUm: 40 }), SPREADS[0][1])
  expect(leak[200 * 400 + 200]).toBe(leakOfCode(codeOfLeak(10 ** -1.9)))
})

describe('machine code and plain loops give the same bits', () => {
  const large: Spread = {
    source: { kind: 'disc', radiusUm: 60 },
    halo: { lengthUm: 70, weight: 0.3 },
  }
  test.each([
    ['128 rows of 256', SPREADS[0][1], 35, [128, 256], null],
    ['an odd reach', SPREADS[1][1], 29, [128, 256], null],
    ['256 rows of 256', large, 31, [256, 256], null],
    ['512 rows of 512', large, 15, [512, 512], null],
    ['bytes of two tones', SPREADS[0][1], 35, [128, 256], 2],
    ['bytes of many tones', SPREADS[0][1], 35, [128, 256], 256],
  ] as const)('%s', async (_, spread, pixelUm, [high, wide], tones) => {
    const [widthPx, heightPx] = [613, 590]
    const densities = film(widthPx, heightPx, high)
    const taken =
      tones === null
        ? filmOf(densities, { widthPx, pixelUm })
        : codedFilm(densities, { widthPx, pixelUm, tones })
    let sides: readonly number[] = []
    const byLoops = leakMapper(taken, spread, (plan) => {
      sides = [plan.high, plan.wide]
      expect(plan.transmissionOf === null).toBe(tones === null)
      return plainTiles(plan)
    })
    const byMachine = leakMapper(taken, spread)
    expect(sides).toEqual([high, wide])
    const machine = byMachine.bands(taken)
    for await (const plain of byLoops.bands(taken)) {
      const { value } = await machine.next()
      expect([plain.top, value?.top]).toEqual([plain.top, plain.top])
      expect(Buffer.compare(bytesOf(plain.codes), bytesOf(value?.codes))).toBe(0)
      expect(Buffer.compare(bytesOf(plain.filmCodes), bytesOf(value?.filmCodes))).toBe(0)
    }
    expect((await machine.next()).done).toBe(true)
  })
})

test('samples and the transmissions they stand for give the same codes', async () => {
  const [widthPx, pixelUm] = [333, 35]
  const coded = codedFilm(film(widthPx, 290, 4), { widthPx, pixelUm, tones: 256 })
  const asWords: Film = {
    ...coded,
    // more than a byte's: the window holds transmissions
    transmissionOf: Float32Array.from({ length: 300 }, (_, at) => coded.transmissionOf?.[at] ?? 1),
  }
  expect(await leakOf(coded, SPREADS[0][1])).toEqual(await leakOf(asWords, SPREADS[0][1]))
})

test('a part of a film has the codes that the whole has there', async () => {
  const [widthPx, heightPx] = [300, 700]
  const spread = SPREADS[0][1]
  const whole = filmOf(film(widthPx, heightPx, 3), { widthPx, pixelUm: 35 })
  const all = new Uint16Array(widthPx * heightPx)
  for await (const { top, codes } of leakMap(whole, spread)) all.set(codes, top * widthPx)
  const mapper = leakMapper(whole, spread)
  const parts = [
    { top: 0, end: 256 },
    { top: 256, end: 471 },
    { top: 471, end: 700 },
  ]
  const handed = filmParts(whole, { parts, margin: leakRowsAround(whole, spread) })
  for await (const part of handed) {
    let next = part.rows.top
    for await (const { top, rows, codes } of mapper.bands(filmOfPart(part, whole), part.rows)) {
      expect(top).toBe(next)
      next += rows
      expect(codes).toEqual(all.subarray(top * widthPx, next * widthPx))
    }
    expect(next).toBe(part.rows.end)
  }
})

function bytesOf(codes: Uint16Array | undefined): Uint8Array {
  return new Uint8Array(codes?.slice().buffer ?? new ArrayBuffer(0))
}
