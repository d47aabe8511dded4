import type { ReactNode } from 'react'
import type { Dimension } from '../../core/placement/dimensions.ts'
import type { Units } from '../signs/Ruler.tsx'
import { rulerText } from '../tests/lengths.ts'

/** A figure of 15 px is about so wide. */
const FIGURE_PX = 8.6
const ROOM_PX = 10
const HIGH_PX = 22
const ARROW_PX = 6

/** A line with an arrow at each end and its length in the middle, or beside it where it is short. */
export function DimensionLine({
  line,
  scale,
  units,
}: Readonly<{ line: Dimension; scale: number; units: Units }>): ReactNode {
  const { from, to, lengthMm, side } = line
  const [x0, y0] = [from.xMm * scale, from.yMm * scale]
  const [x1, y1] = [to.xMm * scale, to.yMm * scale]
  const isAcross = side === 'left' || side === 'right'
  const label = units === 'metric' ? String(Math.round(lengthMm)) : rulerText(lengthMm, units)
  const wide = label.length * FIGURE_PX + ROOM_PX
  const long = lengthMm * scale
  const isShort = long < (isAcross ? wide : HIGH_PX) + 2 * ARROW_PX
  const [x, y] = [(x0 + x1) / 2, (y0 + y1) / 2]
  const [labelX, labelY] = isShort
    ? isAcross
      ? [x, y - HIGH_PX / 2 - 3]
      : [x + wide / 2 + 4, y]
    : [x, y]
  return (
    <>
      <path
        className="place-line"
        d={`M${x0} ${y0}L${x1} ${y1}${arrow(x0, y0, x1, y1)}${arrow(x1, y1, x0, y0)}`}
      />
      <rect
        className="place-figure-ground"
        x={labelX - wide / 2}
        y={labelY - HIGH_PX / 2}
        width={wide}
        height={HIGH_PX}
      />
      <text className="place-figure" x={labelX} y={labelY + 5.5} textAnchor="middle">
        {label}
      </text>
    </>
  )
}

function arrow(x: number, y: number, towardX: number, towardY: number): string {
  const long = Math.hypot(towardX - x, towardY - y)
  const size = Math.min(ARROW_PX, long / 2)
  if (size <= 0) return ''
  const [ux, uy] = [((towardX - x) / long) * size, ((towardY - y) / long) * size]
  return `M${x + ux - uy * 0.55} ${y + uy + ux * 0.55}L${x} ${y}L${x + ux + uy * 0.55} ${y + uy - ux * 0.55}`
}
