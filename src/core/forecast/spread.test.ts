import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { near } from '../units/near.testing.ts'
import {
  discRadiusUm,
  haloShareInside,
  type Spread,
  sourceShareInside,
  spreadReachUm,
  stripShare,
} from './spread.ts'

const bare = (halo: Spread['halo']): Spread => ({ source: { kind: 'disc', radiusUm: 0 }, halo })

describe('an endless black line', () => {
  test.each([
    [60, 1.16],
    [100, 1.33],
    [150, 1.56],
    [200, 1.79],
    [300, 2.28],
    [500, 3.28],
  ])(
    'oracle halo-caps: %d um wide acts as density %d (weight 0.12, length 40 um)',
    (width, acts) => {
      const leak = 1 - stripShare(width / 2, bare({ lengthUm: 40, weight: 0.12 }))
      near(-Math.log10(leak), acts, { within: 0.005, because: 'printed to two decimals' })
    },
  )

  test('oracle bessel-line: the halo alone through a slit, by its Bessel form (x K1(x) / pi)', () => {
    // Line spread of exp(−r/λ)/(2πλ²) is |x| K1(|x|/λ) / (πλ²); K1(x) = ∫ exp(−x cosh t) cosh t dt
    const k1 = (x: number): number => {
      let sum = 0
      for (let t = 0.0005; t < 12; t += 0.001) sum += Math.exp(-x * Math.cosh(t)) * Math.cosh(t)
      return sum * 0.001
    }
    for (const half of [0.3, 1.7, 4]) {
      let share = 0
      const step = half / 400
      for (let x = step / 2; x < half; x += step) share += (2 * x * k1(x) * step) / Math.PI
      near(stripShare(half, bare({ lengthUm: 1, weight: 1 })), share, {
        within: 2e-5,
        because: 'midpoint sums of 400 and 12,000 terms',
      })
    }
  })
})

describe('the picture of the lamp', () => {
  test('oracle penumbra: 10 mm source at 500 mm through 0.1 mm of gap blurs 2.0 um across', () => {
    const radius = discRadiusUm(
      { distanceMm: 500, sourceRadiusMm: 5 },
      { gapUm: 100, thicknessUm: 0, refractiveIndex: 1.5 },
    )
    near(2 * radius, 2, { within: 1e-12, because: 'u = s g / L, exact' })
  })

  test('oracle snell: 30 degrees in air run at 19.47 degrees inside index 1.5', () => {
    const radius = discRadiusUm(
      { distanceMm: 1, sourceRadiusMm: Math.tan(Math.PI / 6) },
      { gapUm: 0, thicknessUm: 100, refractiveIndex: 1.5 },
    )
    near(radius, 100 * Math.tan((19.4712206 * Math.PI) / 180), {
      within: 1e-5,
      because: 'seven digits',
    })
  })

  test('oracle lambertian: under a bank half the light falls within one gap, save for the cut', () => {
    const share = sourceShareInside(70, { kind: 'bank', gapUm: 70 })
    near(share, 0.5 / 0.995, { within: 1e-12, because: 'r²/(r²+g²) at r = g, over the cut share' })
  })

  test('a slit over a disc and over a bank lets through what a grid of points says', () => {
    for (const spread of [
      { source: { kind: 'disc', radiusUm: 31 }, halo: { lengthUm: 22, weight: 0.35 } },
      { source: { kind: 'bank', gapUm: 9 }, halo: { lengthUm: 30, weight: 0.2 } },
    ] as const satisfies readonly Spread[]) {
      for (const half of [7, 40]) {
        const folded = slitByPoints(half, spread)
        near(stripShare(half, spread), folded, {
          within: 4e-4,
          because: 'source in rings of 0.2 um, 720 angles',
        })
      }
    }
  })
})

test('oracle spread-contract: within its mean radius, two lengths, the halo holds 1 − 3/e²', () => {
  near(haloShareInside(80, 40), 1 - 3 * Math.exp(-2), { within: 1e-14, because: 'closed form' })
})

test('invariant: a wider slit lets more through, from none to all', () => {
  const spreads = fc.record({
    source: fc.oneof(
      fc.record({
        kind: fc.constant('disc' as const),
        radiusUm: fc.double({ min: 0, max: 200, noNaN: true }),
      }),
      fc.record({
        kind: fc.constant('bank' as const),
        gapUm: fc.double({ min: 0.5, max: 100, noNaN: true }),
      }),
    ),
    halo: fc.record({
      lengthUm: fc.double({ min: 2, max: 200, noNaN: true }),
      weight: fc.double({ min: 0, max: 1, noNaN: true }),
    }),
  })
  fc.assert(
    fc.property(spreads, fc.double({ min: 0.1, max: 300, noNaN: true }), (spread, half) => {
      const [narrow, wide] = [stripShare(half, spread), stripShare(half * 1.3, spread)]
      expect(narrow).toBeGreaterThanOrEqual(0)
      expect(wide).toBeGreaterThanOrEqual(narrow - 1e-9)
      expect(wide).toBeLessThanOrEqual(1 + 1e-9)
      expect(1 - stripShare(spreadReachUm(spread, 1e-6), spread)).toBeLessThan(2e-6)
    }),
    { seed: 20261125, numRuns: 60 },
  )
})

/** Source and halo as rings of points, summed over the slit. */
function slitByPoints(half: number, { source, halo }: Spread): number {
  const slit = (middle: number): number => {
    let sum = 0
    for (let r = 0.5; r < 14 * halo.lengthUm; r += 1) {
      const mass = haloShareInside(r + 0.5, halo.lengthUm) - haloShareInside(r - 0.5, halo.lengthUm)
      let inside = 0
      for (let at = 0; at < 180; at += 1) {
        if (Math.abs(middle + r * Math.cos(((at + 0.5) * 2 * Math.PI) / 180)) < half)
          inside += 1 / 180
      }
      sum += mass * inside
    }
    return sum
  }
  const slits = new Map<number, number>()
  let plain = 0
  let folded = 0
  const reach = source.kind === 'disc' ? source.radiusUm : source.gapUm * Math.sqrt(199)
  for (let r = 0.1; r < reach; r += 0.2) {
    const mass = sourceShareInside(r + 0.1, source) - sourceShareInside(r - 0.1, source)
    for (let at = 0; at < 720; at += 1) {
      const x = r * Math.cos(((at + 0.5) * 2 * Math.PI) / 720)
      plain += Math.abs(x) < half ? mass / 720 : 0
      const cell = Math.round(Math.abs(x) * 2) / 2
      const there = slits.get(cell) ?? slit(cell)
      slits.set(cell, there)
      folded += (there * mass) / 720
    }
  }
  return (1 - halo.weight) * plain + halo.weight * folded
}
