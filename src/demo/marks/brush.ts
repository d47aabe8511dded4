import { type Canvas, densityWhere, lay, soak } from '../canvas.ts'
import { type Knot, lengthMm, smooth } from '../curve.ts'
import { hills, rise, rough } from '../noise.ts'
import { coverage, sweep } from '../sweep.ts'

/** How a loaded brush goes over drafting film. */
export type Brush = Readonly<{
  /** Of the ink where it lies thick. */
  density: number
  /** Share of the path after which the ink runs short; 1 and above: it never does. */
  dryFromShare?: number
  /** How little ink is left at the end, 0 (full) … 1 (next to nothing). */
  dryness?: number
  /** Width of the streak that one tuft of hair leaves. */
  tuftMm?: number
  /** How far the edge of the wet stroke strays. */
  edgeMm?: number
  /** Thinned ink darkens what lies under it and dries with a rim; full ink covers. */
  thinned?: boolean
  seed: number
}>

/** Thinned ink over thinned ink comes to no more than this. */
const MOST_THINNED = 1.3

/**
 * A brush stroke in drawing ink. While the brush is full it lays an even, slightly darker-edged
 * band; as it runs dry, the tufts part and only the tooth of the film takes ink.
 */
export function brush(canvas: Canvas, path: readonly Knot[], tool: Brush): void {
  const {
    density,
    dryFromShare = 2,
    dryness = 0.8,
    tuftMm = 0.35,
    edgeMm = 0.06,
    thinned = false,
    seed,
  } = tool
  const { pixelMm } = canvas
  const way = smooth(path, { stepMm: 1.2 })
  const wholeMm = lengthMm(way)
  const widestMm = Math.max(...way.map((knot) => knot.halfWidthMm))
  const tufts = Math.max(2, (2 * widestMm) / tuftMm)
  const ragged = thinned ? 0.28 : 0.9
  const slant = (seed % 1000) / 1000 - 0.5
  sweep(
    canvas,
    way,
    (spot) => {
      const { xMm, yMm, insideMm, halfWidthMm, alongMm } = spot
      const across = Math.max(-1.2, Math.min(1.2, spot.across))
      const part = alongMm / wholeMm
      // Ink left: 1 full, 0 none. Edges run dry before the middle, and unevenly along the way.
      const spent =
        part <= dryFromShare ? 0 : (part - dryFromShare) / Math.max(1e-6, 1 - dryFromShare)
      const ebb =
        Math.max(0, spent) * dryness * (0.8 + 0.5 * Math.abs(across) ** 3) + (1 - spot.load)
      let deepMm = insideMm
      const strayMm = Math.min(edgeMm * (1 + 2 * ebb), 0.3 * halfWidthMm)
      if (insideMm < 2 * strayMm) {
        deepMm += (rough(xMm * ragged, yMm * ragged, { seed, octaves: 4 }) - 0.5) * 4 * strayMm
      }
      if (alongMm < halfWidthMm) {
        // The hairs do not all land at once.
        const hairMm = hills(across * tufts * 0.4 + 7, 3, seed + 9) * 0.35 * halfWidthMm
        deepMm = Math.min(deepMm, alongMm + halfWidthMm * (0.5 + slant * across) - hairMm)
      }
      const covered = coverage(deepMm, Math.max(halfWidthMm, 0.5 * pixelMm), pixelMm)
      if (covered <= 0) return
      let inked = 1
      if (ebb > 0.01) {
        const tuft = hills(across * tufts * 0.5 + 40, alongMm / 14, seed + 1)
        const hair = hills(across * tufts * 1.6 + 90, alongMm / 5, seed + 2)
        const tooth = rough(xMm * 14, yMm * 14, { seed: 4711, octaves: 2 })
        const need = tuft * 0.46 + hair * 0.28 + tooth * 0.5
        inked = rise(1.13 - ebb * 1.02 - need, -0.05, 0.05)
      }
      if (inked <= 0.004) return
      const dries = Math.max(0, 1 - ebb)
      if (thinned) {
        const pool = 0.72 + 0.56 * rough(xMm / 9, yMm / 9, { seed: seed + 3, octaves: 3 })
        const rim = 0.55 * Math.exp(-((deepMm / 0.3) ** 2)) + 0.25 * Math.exp(-deepMm / 1.1)
        const laid = density * (pool + rim * dries)
        soak(canvas, spot.index, {
          density: densityWhere(laid, covered * inked),
          most: MOST_THINNED,
        })
      } else {
        const swell = 0.95 + 0.1 * hills(xMm * 0.35, yMm * 0.35, seed + 3)
        const rim = 0.06 * rise(0.5 - deepMm, 0, 0.5) * dries
        lay(canvas, spot.index, densityWhere(density * (swell + rim), covered * inked))
      }
    },
    { beyondMm: 2 * edgeMm },
  )
}

/** A drop of ink that fell, round or drawn out by its flight. */
export function drop(
  canvas: Canvas,
  at: Readonly<{
    xMm: number
    yMm: number
    halfWidthMm: number
    flightXMm?: number
    flightYMm?: number
  }>,
  { density, seed }: Readonly<{ density: number; seed: number }>,
): void {
  const { xMm, yMm, halfWidthMm, flightXMm = 0, flightYMm = 0 } = at
  const isRound = flightXMm === 0 && flightYMm === 0
  const head = { xMm, yMm, halfWidthMm, load: 1 }
  const tail = {
    xMm: xMm + flightXMm + 0.02,
    yMm: yMm + flightYMm,
    halfWidthMm: halfWidthMm * (isRound ? 1 : 0.3),
    load: 1,
  }
  pen(canvas, [head, tail], { density, seed })
}

/** A pen line: narrow, a little uneven in pressure, never running dry. */
export function pen(
  canvas: Canvas,
  path: readonly Knot[],
  { density, seed }: Readonly<{ density: number; seed: number }>,
): void {
  const way = smooth(path, { stepMm: 0.8 })
  const { pixelMm } = canvas
  sweep(
    canvas,
    way,
    (spot) => {
      const press = 0.86 + 0.28 * hills(spot.alongMm * 0.45, 0, seed)
      const thinner = (1 - press) * spot.halfWidthMm
      const covered = coverage(spot.insideMm - thinner, spot.halfWidthMm * press, pixelMm)
      if (covered > 0) lay(canvas, spot.index, densityWhere(density * spot.load, covered))
    },
    { beyondMm: 0.08 },
  )
}
