import type { DensityCurve } from '../../core/inspection/densityCurve.ts'
import type { Grain } from '../../raster/photo/grain.ts'

/** From what a photo shows to density above the film's clear base, and how far that can be off. */
export type Transfer = Readonly<{
  densityOf: (seen: number) => number
  sdOf: (density: number) => number
  /** The part of that which is the photo's grain, from pixel to pixel. */
  noiseOf: (density: number) => number
  /** What is denser than this, the photo cannot tell. */
  highest: number
}>

/** No wedge: the camera's own tones are taken at their word, and are off by so much (judged). */
const UNKNOWN_TONES = { sd: 0.05, share: 0.07, flare: 0.004 }
/** Beyond such an sd a density is not told but said to be denser. */
const TOLD_WITHIN = { wedge: 0.15, none: 0.3 }
/** A wedge's own tolerance, and a lens's stray light that differs from wedge to film (judged). */
const WEDGE_SD = 0.012
const FLARE_DOUBT = 0.15
const LEAST_FLARE = 0.0004
const STEP = 0.01
const MOST = 4.5

/**
 * @param curve through the wedge in the photo; null where there is none
 * @param of light: of clear film in the middle; grain by light; sd of the clear light itself, in density
 */
export function transferBy(
  curve: DensityCurve | null,
  of: Readonly<{ light: number; grain: Grain; fieldSd: number }>,
): Transfer {
  const base = curve?.densityOf(0) ?? 0
  const densityOf = (seen: number): number => (curve === null ? seen : curve.densityOf(seen) - base)
  const { whole, noise } = sdTables(curve, densityOf, of)
  const within = curve === null ? TOLD_WITHIN.none : TOLD_WITHIN.wedge
  const past = whole.findIndex((sd, at) => sd > within && at * STEP > 0.3)
  const told = past < 0 ? MOST : past * STEP
  return {
    densityOf,
    sdOf: (density) => between(whole, density),
    noiseOf: (density) => between(noise, density),
    highest: Math.min(told, (curve?.highestDensity ?? MOST) - base),
  }
}

function between(table: readonly number[], density: number): number {
  const at = Math.max(0, density) / STEP
  const before = Math.min(table.length - 1, Math.floor(at))
  const after = Math.min(table.length - 1, before + 1)
  const [low = 0, high = 0] = [table[before], table[after]]
  return low + (at - Math.floor(at)) * (high - low)
}

function sdTables(
  curve: DensityCurve | null,
  densityOf: (seen: number) => number,
  { light, grain, fieldSd }: Readonly<{ light: number; grain: Grain; fieldSd: number }>,
): Readonly<{ whole: readonly number[]; noise: readonly number[] }> {
  const flare = flareOf(curve, densityOf)
  const [whole, noise]: [number[], number[]] = [[], []]
  let seen = 0
  for (let at = 0; at * STEP <= MOST; at += 1) {
    const density = at * STEP
    while (densityOf(seen) < density && seen < 2 * MOST) seen += 0.002
    const lit = light * 10 ** -seen
    const slope = curve?.slopeAt(seen) ?? 1
    const ofGrain = (slope * grain(lit)) / lit / Math.LN10
    const ofFlare = (flare * 10 ** density) / Math.LN10
    const ofTones =
      curve === null
        ? Math.hypot(UNKNOWN_TONES.sd, UNKNOWN_TONES.share * density)
        : Math.hypot(WEDGE_SD, curve.scatter)
    whole.push(Math.hypot(ofGrain, ofFlare, ofTones, fieldSd))
    noise.push(ofGrain)
  }
  return { whole, noise }
}

/** Doubt of the stray light, as a share of the clear light: by how much the darks are lifted. */
function flareOf(curve: DensityCurve | null, densityOf: (seen: number) => number): number {
  if (curve === null) return UNKNOWN_TONES.flare
  let most = 0
  for (let seen = 1; densityOf(seen) < curve.highestDensity - curve.densityOf(0); seen += 0.05) {
    most = Math.max(most, 10 ** -seen - 10 ** -densityOf(seen))
    if (seen > MOST) break
  }
  return Math.max(LEAST_FLARE, FLARE_DOUBT * Math.min(most, 0.02))
}
