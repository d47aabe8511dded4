import { type Canvas, STEPS_PER_DENSITY } from '../canvas.ts'
import { type Knot, smooth } from '../curve.ts'
import { hills, rise } from '../noise.ts'
import { coverage, type Spot, sweep } from '../sweep.ts'

// While a pencil drawing is made, the canvas holds graphite rubbed on (in the same steps), not yet
// density: where strokes cross, the tooth of the film fills up. `develop` turns it into density.

/** No tooth takes more graphite than this. */
const MOST_GRAPHITE = 3.2
/** Density of a speck that holds all it can. */
const FULL_SPECK = 1.62

/** One stroke of a soft pencil; `load` along the path is the pressure, 0 … 1. */
export function rub(
  canvas: Canvas,
  path: readonly Knot[],
  { seed }: Readonly<{ seed: number }>,
): void {
  const { pixelMm, steps } = canvas
  sweep(canvas, smooth(path, { stepMm: 1.5 }), (spot) => {
    const covered = coverage(spot.insideMm, spot.halfWidthMm, pixelMm)
    if (covered <= 0) return
    // The worn lead bears more on one side, and the hand trembles.
    const side = 1 + 0.3 * Math.max(-1, Math.min(1, spot.across))
    const tremble = 0.8 + 0.4 * hills(spot.alongMm * 0.7, 0, seed)
    const bears = (1 - 0.75 * away(spot) ** 2) * side * tremble * spot.load * covered
    if (bears <= 0) return
    const there = (steps[spot.index] ?? 0) / STEPS_PER_DENSITY
    steps[spot.index] = Math.round(Math.min(MOST_GRAPHITE, there + bears) * STEPS_PER_DENSITY)
  })
}

/**
 * Graphite to density. The film's tooth (bumps 0.05 and 0.1 mm across) takes graphite on its tops
 * first; pressing harder, or going over again, reaches further down.
 */
export function develop(canvas: Canvas, { seed }: Readonly<{ seed: number }>): void {
  const { widthPx, heightPx, pixelMm, steps } = canvas
  for (let row = 0; row < heightPx; row += 1) {
    const yMm = (row + 0.5) * pixelMm
    for (let column = 0; column < widthPx; column += 1) {
      const index = row * widthPx + column
      const graphite = steps[index] / STEPS_PER_DENSITY
      if (graphite === 0) continue
      const xMm = (column + 0.5) * pixelMm
      steps[index] = Math.round(speck(graphite, tooth(xMm, yMm, seed)) * STEPS_PER_DENSITY)
    }
  }
}

/** Height of the film's surface, 0 … 1. */
export function tooth(xMm: number, yMm: number, seed: number): number {
  const coarse = hills((0.8 * xMm - 0.6 * yMm) * 10, (0.6 * xMm + 0.8 * yMm) * 10, seed)
  const fine = hills((0.6 * xMm + 0.8 * yMm) * 21, (0.6 * yMm - 0.8 * xMm) * 21, seed + 1)
  return 0.55 * coarse + 0.45 * fine
}

function speck(graphite: number, height: number): number {
  const reach = 1 - Math.exp(-1.8 * graphite)
  const held = rise(height, 0.8 - 0.8 * reach, 1.0 - 0.8 * reach)
  const dark = FULL_SPECK * (1 - Math.exp(-0.16 - 1.5 * graphite))
  const dust = 0.9 * reach * reach
  return dust + (dark - dust) * held
}

/** A finger drawn over the drawing: a thin even veil, streaked along the way. */
export function smudge(
  canvas: Canvas,
  path: readonly Knot[],
  { density, seed }: Readonly<{ density: number; seed: number }>,
): void {
  const { steps } = canvas
  sweep(canvas, smooth(path, { stepMm: 2 }), (spot) => {
    if (spot.insideMm <= 0) return
    const soft = (1 - away(spot) ** 2) ** 2
    const streak = 0.5 + hills(spot.across * 9 + 50, spot.alongMm / 9, seed)
    const grain = 0.75 + 0.5 * tooth(spot.xMm, spot.yMm, seed + 5)
    const veil = density * soft * streak * grain * spot.load
    steps[spot.index] = Math.round((steps[spot.index] ?? 0) + veil * STEPS_PER_DENSITY)
  })
}

/** A kneaded rubber pressed on: takes a share of the density away. */
export function lift(
  canvas: Canvas,
  path: readonly Knot[],
  { takenShare, seed }: Readonly<{ takenShare: number; seed: number }>,
): void {
  const { steps } = canvas
  sweep(canvas, smooth(path, { stepMm: 1.5 }), (spot) => {
    if (spot.insideMm <= 0) return
    const soft = rise(1 - away(spot) ** 2, 0, 0.7)
    const uneven = 0.75 + 0.5 * hills(spot.xMm * 1.4, spot.yMm * 1.4, seed)
    const left = 1 - Math.min(1, takenShare * soft * uneven * spot.load)
    steps[spot.index] = Math.round((steps[spot.index] ?? 0) * left)
  })
}

/** 0 in the middle of the path, 1 at its edge, all round its ends too. */
function away({ insideMm, halfWidthMm }: Spot): number {
  return Math.min(1, 1 - insideMm / halfWidthMm)
}
