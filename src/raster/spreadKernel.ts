import { gaussLegendre, integrate } from '../core/forecast/quadrature.ts'
import { haloThroughSource } from '../core/forecast/radialSpread.ts'
import {
  type Spread,
  sourceReachUm,
  sourceShareInside,
  spreadReachUm,
} from '../core/forecast/spread.ts'

/** Weights of a square of pixels about the middle one; row by row, adding up to 1. */
export type SpreadKernel = Readonly<{
  /** Pixels from the middle to the last one that counts. */
  reachPx: number
  /** (2 reachPx + 1)² weights, 64 bit. */
  weights: Float64Array
}>

/** What may be left out of the kernel: 1 % of the light under a mark of density 4. */
const TAIL_SHARE = 1e-6

/**
 * The spread integrated over each pixel of the film, cut where less than 1e-6 of the light is
 * left outside, then made to add up to 1.
 *
 * The source's own share is exact (the polar form of a rectangle); the halo's by Gauss-Legendre
 * on each pixel, the middle one in polar form because of the cusp there.
 *
 * @param pixelUm side of a pixel, above 0
 * @source spread-contract
 */
export function spreadKernel(
  spread: Spread,
  { pixelUm }: Readonly<{ pixelUm: number }>,
): SpreadKernel {
  const reachUm = spreadReachUm(spread, TAIL_SHARE)
  const reachPx = spreadReachPx(spread, { pixelUm })
  const side = 2 * reachPx + 1
  const weights = new Float64Array(side * side)
  const { weight } = spread.halo
  const halo = haloThroughSource(spread, reachUm + 2 * pixelUm)
  const nearPx = 2 + Math.ceil(sourceReachUm(spread.source) / pixelUm)
  for (let y = 0; y <= reachPx; y += 1) {
    for (let x = y; x <= reachPx; x += 1) {
      const plain = weight < 1 ? sourceOnPixel(spread, { x, y, pixelUm }) : 0
      const rule = x <= nearPx ? NEAR : FAR
      const folded =
        weight === 0
          ? 0
          : x === 0
            ? middlePixel(halo, spread, pixelUm)
            : haloOnPixel(halo, { x, y, pixelUm }, rule)
      const value = (1 - weight) * plain + weight * folded
      for (const [i, j] of mirrored(x, y)) weights[(reachPx + j) * side + reachPx + i] = value
    }
  }
  const sum = weights.reduce((total, value) => total + value, 0)
  for (let at = 0; at < weights.length; at += 1) weights[at] /= sum
  return { reachPx, weights }
}

/** How far from its middle pixel the kernel reaches. */
export function spreadReachPx(spread: Spread, { pixelUm }: Readonly<{ pixelUm: number }>): number {
  return Math.max(1, Math.ceil(spreadReachUm(spread, TAIL_SHARE) / pixelUm - 0.5))
}

type Pixel = Readonly<{ x: number; y: number; pixelUm: number }>

function mirrored(x: number, y: number): readonly (readonly [number, number])[] {
  const quarter: (readonly [number, number])[] = [
    [x, y],
    [y, x],
  ]
  return quarter.flatMap(([i, j]) => [
    [i, j],
    [-i, j],
    [i, -j],
    [-i, -j],
  ])
}

function haloOnPixel(
  halo: (radiusUm: number) => number,
  { x, y, pixelUm }: Pixel,
  rule: typeof NEAR,
): number {
  const across = (centre: number): readonly [number, number] => [
    (centre - 0.5) * pixelUm,
    (centre + 0.5) * pixelUm,
  ]
  return integrate(
    (v) => integrate((u) => halo(Math.hypot(u, v)), across(x), rule),
    across(y),
    rule,
  )
}

/** Eight triangles about the middle, in polar form: 8 ∫∫ h(r) r dr dφ. */
function middlePixel(
  halo: (radiusUm: number) => number,
  { source }: Spread,
  pixelUm: number,
): number {
  const edge = source.kind === 'disc' ? source.radiusUm : source.gapUm
  const triangle = integrate(
    (phi) => {
      const end = pixelUm / 2 / Math.cos(phi)
      const split = Math.min(edge, end)
      const ring = (r: number): number => halo(r) * r
      return integrate(ring, [0, split], NEAR) + integrate(ring, [split, end], NEAR)
    },
    [0, Math.PI / 4],
    NEAR,
  )
  return 8 * triangle
}

/** Exact share of the source's picture on a pixel, by corners: F(x2,y2) − F(x1,y2) − F(x2,y1) + F(x1,y1). */
function sourceOnPixel({ source }: Spread, { x, y, pixelUm }: Pixel): number {
  const reach = sourceReachUm(source)
  if (reach === 0) return x === 0 && y === 0 ? 1 : 0
  if (Math.hypot(x - 0.5, y - 0.5) * pixelUm > reach && x > 0 && y > 0) return 0
  const corner = (a: number, b: number): number =>
    Math.sign(a) *
    Math.sign(b) *
    cornerShare(Math.abs(a) * pixelUm, Math.abs(b) * pixelUm, { source })
  return (
    corner(x + 0.5, y + 0.5) -
    corner(x - 0.5, y + 0.5) -
    corner(x + 0.5, y - 0.5) +
    corner(x - 0.5, y - 0.5)
  )
}

/** Share on the rectangle 0 … a by 0 … b: (1/2π) ∫ S(where the ray leaves it) dφ. */
function cornerShare(a: number, b: number, { source }: Pick<Spread, 'source'>): number {
  return raySum(a, Math.atan2(b, a), source) + raySum(b, Math.atan2(a, b), source)
}

function raySum(a: number, phiEnd: number, source: Source): number {
  const reach = sourceReachUm(source)
  // beyond this angle the ray ends outside the whole picture: S is 1
  const phiFull = a >= reach ? 0 : Math.min(phiEnd, Math.acos(a / reach))
  const inside = integrate(
    (phi) => sourceShareInside(a / Math.cos(phi), source),
    [0, phiFull],
    NEAR,
  )
  return (inside + phiEnd - phiFull) / (2 * Math.PI)
}

type Source = Spread['source']

const NEAR = gaussLegendre(24)
const FAR = gaussLegendre(8)
