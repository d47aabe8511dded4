import type { Range } from '../units/range.ts'
import { gaussLegendre, integrate } from './quadrature.ts'

/**
 * How light from one point of the film spreads on its way into the stencil: the picture of the
 * lamp through gap and depth (a disc under a small lamp, a Lambertian bell under a bank), and,
 * for a share `weight` of it, an exponential halo from scatter in fabric and emulsion.
 *
 *     kernel = source ⊛ ((1 − w) δ + w exp(−r/λ) / (2π λ²))
 */
export type Spread = Readonly<{
  source: Source
  halo: Readonly<{ lengthUm: number; weight: number }>
}>

export type Source =
  | Readonly<{ kind: 'disc'; radiusUm: number }>
  | Readonly<{ kind: 'bank'; gapUm: number }>

export type PointLamp = Readonly<{ distanceMm: number; sourceRadiusMm: number }>

export const HALO_LENGTH: Range = { name: 'scatter length', low: 0.5, high: 1000, unit: 'um' }
export const HALO_WEIGHT: Range = { name: 'scatter weight', low: 0, high: 1, unit: '' }
export const SOURCE_REACH: Range = { name: 'source radius', low: 0, high: 20_000, unit: 'um' }

/** A bank's bell has no end: it is cut where this share of the light lies inside, then normalised. */
export const BANK_CUT_SHARE = 0.995

/**
 * Radius of the lamp's picture on the stencil, um: R = g tan θ + t tan θ', with tan θ = radius of
 * the source over its distance and sin θ' = sin θ / n (refraction into the layer).
 *
 * @param path gapUm 0 …, thicknessUm of the layer the light crosses, refractiveIndex ≥ 1
 * @source penumbra, snell
 */
export function discRadiusUm(
  lamp: PointLamp,
  path: Readonly<{ gapUm: number; thicknessUm: number; refractiveIndex: number }>,
): number {
  const tan = lamp.sourceRadiusMm / lamp.distanceMm
  const sinInside = Math.sin(Math.atan(tan)) / path.refractiveIndex
  return path.gapUm * tan + path.thicknessUm * Math.tan(Math.asin(sinInside))
}

/** Radius that holds all of the source's own picture, um. */
export function sourceReachUm(source: Source): number {
  return source.kind === 'disc'
    ? source.radiusUm
    : source.gapUm * Math.sqrt(BANK_CUT_SHARE / (1 - BANK_CUT_SHARE))
}

/**
 * Share of the halo inside radius r: 1 − (1 + r/λ) exp(−r/λ); its mean radius is 2 λ.
 *
 * @source spread-contract
 */
export function haloShareInside(radiusUm: number, lengthUm: number): number {
  const x = radiusUm / lengthUm
  return x < 1e-4 ? x * x * (0.5 - x / 3) : 1 - (1 + x) * Math.exp(-x)
}

/**
 * Share of the source's picture inside radius r: (r/R)² in a disc; r²/(r² + g²) under a bank,
 * over the cut share.
 *
 * @source spread-contract, lambertian
 */
export function sourceShareInside(radiusUm: number, source: Source): number {
  if (radiusUm >= sourceReachUm(source)) return 1
  if (source.kind === 'disc') return (radiusUm / source.radiusUm) ** 2
  return radiusUm ** 2 / (radiusUm ** 2 + source.gapUm ** 2) / BANK_CUT_SHARE
}

/**
 * Radius beyond which less than `tailShare` of the light falls, um: the halo's own tail
 * w (1 + x) exp(−x), x in lengths, beyond the source's reach.
 */
export function spreadReachUm({ source, halo }: Spread, tailShare: number): number {
  let lengths = 0
  if (halo.weight > tailShare) {
    // x = ln(w (1 + x) / tail) converges fast from above 1
    lengths = 12
    for (let round = 0; round < 60; round += 1) {
      lengths = Math.log((halo.weight * (1 + lengths)) / tailShare)
    }
  }
  return sourceReachUm(source) + Math.max(0, lengths) * halo.lengthUm
}

/**
 * Share of the light that falls within ±a of the middle of an endless straight line.
 *
 * In polar form the strip |x| < a reaches from 0 to a / cos φ, so with S(r) the share inside r it
 * is (2/π) ∫ S(a / cos φ) dφ, 0 … π/2. The halo is folded with the source by the source's own
 * profile across the line.
 *
 * @param halfWidthUm a, 0 …
 * @returns 0 … 1
 * @source spread-contract
 */
export function stripShare(halfWidthUm: number, { source, halo }: Spread): number {
  const plain = sourceStripShare(halfWidthUm, source)
  if (halo.weight === 0) return plain
  let folded = 0
  for (const { atUm, mass } of profile(source)) {
    folded += mass * haloStripShare(halfWidthUm + atUm, halo.lengthUm)
  }
  return (1 - halo.weight) * plain + halo.weight * folded
}

/** Odd in a, so that a fold reaching across the line's edge needs no case of its own. */
function haloStripShare(halfWidthUm: number, lengthUm: number): number {
  const x = Math.abs(halfWidthUm) / lengthUm
  // 1 − C = (2/π) ∫ (1 + x/cos φ) exp(−x/cos φ) dφ; with tan φ = sinh u nothing is steep
  const outside = integrate(
    (u) => {
      const reach = x * Math.cosh(u)
      return ((1 + reach) * Math.exp(-reach)) / Math.cosh(u)
    },
    [0, 22], // sech falls below 1e-9 there
    RULE,
  )
  const share = x === 0 ? 0 : 1 - (2 / Math.PI) * outside
  return halfWidthUm < 0 ? -share : share
}

function sourceStripShare(halfWidthUm: number, source: Source): number {
  const reach = sourceReachUm(source)
  if (halfWidthUm >= reach) return 1
  const part = halfWidthUm / reach
  if (source.kind === 'disc') {
    return (2 / Math.PI) * (part * Math.sqrt(1 - part * part) + Math.asin(part))
  }
  const slope = halfWidthUm / Math.hypot(halfWidthUm, source.gapUm)
  const phi = Math.acos(part)
  return (
    (2 / Math.PI) *
    ((slope * Math.atan(slope * Math.tan(phi))) / BANK_CUT_SHARE + Math.PI / 2 - phi)
  )
}

/** The source's picture summed along the line: point masses across it, adding up to 1. */
function profile(source: Source): readonly Readonly<{ atUm: number; mass: number }>[] {
  const reach = sourceReachUm(source)
  if (reach === 0) return [{ atUm: 0, mass: 1 }]
  const count = source.kind === 'disc' ? 48 : 240
  const masses = Array.from({ length: count }, (_, at) => {
    const angle = (Math.PI * (at + 1)) / (count + 1)
    if (source.kind === 'disc') {
      // Gauss-Chebyshev of the second kind: its weight is the disc's own profile
      return { atUm: reach * Math.cos(angle), mass: (2 / (count + 1)) * Math.sin(angle) ** 2 }
    }
    const end = Math.atan(reach / source.gapUm)
    const psi = -end + ((at + 0.5) * 2 * end) / count
    const atUm = source.gapUm * Math.tan(psi)
    return { atUm, mass: bankProfile(atUm, source.gapUm, reach) / Math.cos(psi) ** 2 }
  })
  const total = masses.reduce((sum, { mass }) => sum + mass, 0)
  return masses.map(({ atUm, mass }) => ({ atUm, mass: mass / total }))
}

/** ∫ g² / (π (x² + y² + g²)²) dy over the cut bell, up to a constant. */
function bankProfile(xUm: number, gapUm: number, reachUm: number): number {
  const s = Math.hypot(xUm, gapUm)
  const y = Math.sqrt(Math.max(0, reachUm ** 2 - xUm ** 2))
  return y / (s * s * (s * s + y * y)) + Math.atan(y / s) / s ** 3
}

const RULE = gaussLegendre(120)
