import { type Canvas, densityWhere, lay } from '../canvas.ts'
import type { Point } from '../curve.ts'
import { hills, rough } from '../noise.ts'
import { depthAt, depthsOf } from '../shape.ts'

/** A shape filled in with full ink. */
export function blot(
  canvas: Canvas,
  outline: readonly Point[],
  { density, edgeMm = 0.1, seed }: Readonly<{ density: number; edgeMm?: number; seed: number }>,
): void {
  const { widthPx, heightPx, pixelMm } = canvas
  const depths = depthsOf(outline, { cellMm: 0.3, marginMm: 2 * edgeMm + 0.6 })
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
      const stray = (rough(xMm * 0.8, yMm * 0.8, { seed, octaves: 3 }) - 0.5) * 4 * edgeMm
      const covered = Math.max(0, Math.min(1, 0.5 + (depthAt(depths, xMm, yMm) + stray) / pixelMm))
      if (covered === 0) continue
      const swell = 0.95 + 0.1 * hills(xMm * 0.35, yMm * 0.35, seed + 3)
      lay(canvas, row * widthPx + column, densityWhere(density * swell, covered))
    }
  }
}
