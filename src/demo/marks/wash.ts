import { type Canvas, densityWhere, soak } from '../canvas.ts'
import type { Point } from '../curve.ts'
import { hills, ridges, rise, rough } from '../noise.ts'
import { depthAt, depthsOf } from '../shape.ts'

/** A wash of thinned ink, laid wet and left to dry on film that does not drink it. */
export type Wash = Readonly<{
  outline: readonly Point[]
  /** Middle density at the first and the last place of the run, and straight between. */
  density: number
  run?: Readonly<{ from: Point; to: Point; densityTo: number }>
  /** What the dried rim has more than the middle, and how wide it is. */
  rim: number
  rimMm?: number
  /** How far the edge wanders from the outline. */
  wanderMm?: number
  /** 0 smooth … 1 the pigment has drawn together into a net. */
  net?: number
  netMm?: number
  /** Drops of water that pushed the pigment aside. */
  blooms?: readonly Readonly<Point & { radiusMm: number }>[]
  seed: number
}>

/** No wash comes out denser than this, however often it is gone over. */
const MOST = 1.3

export function wash(canvas: Canvas, film: Wash): void {
  const { widthPx, heightPx, pixelMm } = canvas
  const { rim, rimMm = 0.9, wanderMm = 1.2, net = 0.4, netMm = 1.5, blooms = [], seed } = film
  const depths = depthsOf(film.outline, { cellMm: 0.6, marginMm: wanderMm + 1.5 })
  const left = Math.max(0, Math.floor(depths.leftMm / pixelMm))
  const top = Math.max(0, Math.floor(depths.topMm / pixelMm))
  const right = Math.min(
    widthPx,
    Math.ceil((depths.leftMm + depths.columns * depths.cellMm) / pixelMm),
  )
  const bottom = Math.min(
    heightPx,
    Math.ceil((depths.topMm + depths.rows * depths.cellMm) / pixelMm),
  )
  for (let row = top; row < bottom; row += 1) {
    const yMm = (row + 0.5) * pixelMm
    for (let column = left; column < right; column += 1) {
      const xMm = (column + 0.5) * pixelMm
      const plainMm = depthAt(depths, xMm, yMm)
      if (plainMm < -wanderMm - 0.5) continue
      let deepMm = plainMm
      if (plainMm < 4 * wanderMm + 2) {
        const wander = rough(xMm / 7, yMm / 7, { seed, octaves: 3 }) - 0.5
        const bite = rough(xMm * 1.6, yMm * 1.6, { seed: seed + 5, octaves: 2 }) - 0.5
        deepMm += wander * 2 * wanderMm + bite * 0.35
      }
      const covered = Math.max(0, Math.min(1, 0.5 + deepMm / pixelMm))
      if (covered <= 0) continue
      const pool = rough(xMm / 16, yMm / 16, { seed: seed + 11, octaves: 2 }) - 0.5
      let density = runDensity(film, xMm, yMm) * (1 + 0.7 * pool)
      if (deepMm < rimMm * 5) {
        const uneven = 0.45 + 1.1 * hills(xMm / 9, yMm / 9, seed + 13)
        // A hard thin line where the rim stood, and a broad shoulder behind it.
        density +=
          rim *
          uneven *
          (0.62 * Math.exp(-((deepMm / (0.35 * rimMm)) ** 2)) +
            0.38 * Math.exp(-deepMm / (1.6 * rimMm)))
      }
      for (const bloom of blooms) density *= bloomed(bloom, { xMm, yMm, seed: seed + 17 })
      if (net > 0) {
        const where = rise(hills(xMm / 13, yMm / 13, seed + 19), 0.25, 0.75)
        if (where > 0)
          density *= 1 + net * where * (ridges(xMm / netMm, yMm / netMm, seed + 23) * 1.9 - 0.85)
      }
      density *= 0.94 + 0.12 * hills(xMm * 8, yMm * 8, seed + 29)
      soak(canvas, row * widthPx + column, {
        density: densityWhere(Math.max(0.03, density), covered),
        most: MOST,
      })
    }
  }
}

function runDensity({ density, run }: Wash, xMm: number, yMm: number): number {
  if (run === undefined) return density
  const alongX = run.to.xMm - run.from.xMm
  const alongY = run.to.yMm - run.from.yMm
  const part =
    ((xMm - run.from.xMm) * alongX + (yMm - run.from.yMm) * alongY) / (alongX ** 2 + alongY ** 2)
  return density + (run.densityTo - density) * Math.max(0, Math.min(1, part))
}

/** Thinner inside a bloom, a frayed crest at its border. */
function bloomed(
  bloom: Readonly<Point & { radiusMm: number }>,
  { xMm, yMm, seed }: Readonly<Point & { seed: number }>,
): number {
  const away = Math.hypot(xMm - bloom.xMm, yMm - bloom.yMm) / bloom.radiusMm
  if (away > 1.6) return 1
  const frayed = away + (rough(xMm / 3, yMm / 3, { seed, octaves: 3 }) - 0.5) * 0.75
  const crest = 0.55 * Math.exp(-(((frayed - 1) / 0.07) ** 2)) * (frayed > 1 ? 1 : 0.9)
  const hollow = 0.5 * (1 - rise(frayed, 0.55, 1))
  return 1 + crest - hollow
}
