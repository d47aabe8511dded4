import type { AxisPoint } from './axisPoints.ts'

/** Widths are told apart down to this share of a pixel. */
const PER_PX = 8
/** What is wider than this is wide enough for any fabric. */
const MOST_PX = 4096

export type MarkWidths = Readonly<{
  /** A point of a mark's axis, and how much it counts. */
  add: (point: Pick<AxisPoint, 'widthPx'>, weight: number) => void
  /** The width in the middle of each of so many equal shares of the axes, narrowest first; in pixels. */
  shares: (count: number) => readonly number[]
}>

/** How wide a film's marks are along their axes. */
export function markWidths(): MarkWidths {
  const weights = new Float64Array(MOST_PX * PER_PX + 1)
  return {
    add: ({ widthPx }, weight) => {
      const at = Math.min(weights.length - 1, Math.round(widthPx * PER_PX))
      weights[at] = (weights[at] ?? 0) + weight
    },
    shares: (count) => {
      const total = weights.reduce((sum, weight) => sum + weight, 0)
      const shares: number[] = []
      let below = 0
      for (let at = 0; at < weights.length && total > 0; at += 1) {
        below += weights[at] ?? 0
        while (shares.length < count && below >= ((shares.length + 0.5) / count) * total) {
          shares.push(at / PER_PX)
        }
      }
      return shares
    },
  }
}
