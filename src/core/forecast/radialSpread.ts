import { gaussLegendre, integrate } from './quadrature.ts'
import { haloShareInside, type Source, type Spread, sourceReachUm } from './spread.ts'

/** Light per um² at a distance from where it came through the film. */
export type Radial = (radiusUm: number) => number

/**
 * The halo folded with the source's picture, h ⊛ source, per um², as a function of distance.
 *
 * About a point at distance r from a disc of radius R, a ray at angle φ crosses the disc from s1
 * to s2, and what the halo has between them is G(s2) − G(s1), G its share inside. A bank's bell is
 * a pile of such discs.
 *
 * @returns a table read by cubic interpolation, good to about 1e-8 of the peak
 * @source spread-contract
 */
export function haloThroughSource({ source, halo }: Spread, reachUm: number): Radial {
  const { lengthUm } = halo
  const reach = sourceReachUm(source)
  if (reach < 1e-3 * lengthUm) {
    return (radius) => Math.exp(-radius / lengthUm) / (2 * Math.PI * lengthUm ** 2)
  }
  const discs = discsOf(source)
  const exact = (radius: number): number =>
    discs.reduce(
      (sum, { radiusUm, mass }) => sum + mass * haloThroughDisc(radius, radiusUm, lengthUm),
      0,
    )
  return tabulate(exact, {
    scaleUm: Math.min(lengthUm, source.kind === 'disc' ? reach : source.gapUm),
    reachUm,
  })
}

/** A source as a pile of even discs, masses adding up to 1. */
function discsOf(source: Source): readonly Readonly<{ radiusUm: number; mass: number }>[] {
  const reach = sourceReachUm(source)
  if (source.kind === 'disc') return [{ radiusUm: reach, mass: 1 }]
  const { gapUm } = source
  // The bell is g²/(π (r² + g²)²); its slope makes the discs, its height at the cut the last one.
  const { nodes, weights } = gaussLegendre(40)
  const end = Math.atan(reach / gapUm)
  const discs = nodes.map((node, at) => {
    const psi = (end / 2) * (1 + node)
    const radiusUm = gapUm * Math.tan(psi)
    const slope = (4 * gapUm ** 2 * radiusUm ** 3) / (radiusUm ** 2 + gapUm ** 2) ** 3
    const stretch = gapUm / Math.cos(psi) ** 2
    return { radiusUm, mass: (end / 2) * (weights[at] ?? 0) * slope * stretch }
  })
  const last = (gapUm * reach) ** 2 / (reach ** 2 + gapUm ** 2) ** 2
  const total = discs.reduce((sum, { mass }) => sum + mass, last)
  return [...discs, { radiusUm: reach, mass: last }].map(({ radiusUm, mass }) => ({
    radiusUm,
    mass: mass / total,
  }))
}

/** Mean of the halo over a disc whose middle is `radius` away. */
function haloThroughDisc(radius: number, discUm: number, lengthUm: number): number {
  const between = (from: number, to: number): number =>
    haloShareInside(to, lengthUm) - haloShareInside(from, lengthUm)
  const area = Math.PI * discUm ** 2
  if (radius <= discUm) {
    const ring = (phi: number): number => {
      const side = radius * Math.sin(phi)
      return between(0, radius * Math.cos(phi) + Math.sqrt(Math.max(0, discUm ** 2 - side ** 2)))
    }
    return integrate(ring, [0, Math.PI], RULE) / (Math.PI * area)
  }
  // sin φ = (R/r) sin ψ takes the square root's end out of the way
  const crossing = (psi: number): number => {
    const sin = (discUm / radius) * Math.sin(psi)
    const cos = Math.sqrt(1 - sin * sin)
    const half = discUm * Math.cos(psi)
    return (between(radius * cos - half, radius * cos + half) * half) / (radius * cos)
  }
  return integrate(crossing, [0, Math.PI / 2], RULE) / (Math.PI * area)
}

/** Cubic table on asinh(r / scale): fine near the middle, even steps of the exponent far out. */
function tabulate(
  exact: Radial,
  { scaleUm, reachUm }: Readonly<{ scaleUm: number; reachUm: number }>,
): Radial {
  const step = Math.min(1 / 100, scaleUm / reachUm)
  const count = Math.ceil(Math.asinh((reachUm * 1.5) / scaleUm) / step) + 3
  const table = Float64Array.from({ length: count + 1 }, (_, at) =>
    Math.log(Math.max(1e-300, exact(scaleUm * Math.sinh(Math.max(0, at - 1) * step)))),
  )
  table[0] = table[2] ?? 0 // even about the middle
  return (radius) => {
    const at = Math.asinh(radius / scaleUm) / step
    const cell = Math.min(Math.floor(at), count - 3)
    const t = at - cell
    const a = table[cell] ?? 0
    const b = table[cell + 1] ?? 0
    const c = table[cell + 2] ?? 0
    const d = table[cell + 3] ?? 0
    const value =
      b + 0.5 * t * (c - a + t * (2 * a - 5 * b + 4 * c - d + t * (3 * (b - c) + d - a)))
    return Math.exp(value)
  }
}

const RULE = gaussLegendre(64)
