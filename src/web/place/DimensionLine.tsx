import type { ReactNode } from 'react'
import type { Dimension } from '../../core/placement/dimensions.ts'
import type { Units } from '../signs/Ruler.tsx'
import { rulerText } from '../tests/lengths.ts'

/** A figure of 15 px is about so wide. */
const FIGURE_PX = 8.6
const ROOM_PX = 10
const HIGH_PX = 22
const ARROW_PX = 6

type Drawn = Readonly<{ line: Dimension; scale: number; units: Units }>

/** Whether a line's figure stands where another one of so many pixels would. */
export function isCovered(
  { x, y, widePx }: Readonly<{ x: number; y: number; widePx: number }>,
  drawn: Drawn,
): boolean {
  const { wide, labelX, labelY } = figureOf(drawn)
  return Math.abs(labelX - x) < (wide + widePx) / 2 && Math.abs(labelY - y) < HIGH_PX
}

/** A line with an arrow at each end and its length in the middle, or beside it where it is short. */
export function DimensionLine({ line, scale, units }: Drawn): ReactNode {
  const { from, to } = line
  const [x0, y0] = [from.xMm * scale, from.yMm * scale]
  const [x1, y1] = [to.xMm * scale, to.yMm * scale]
  const { label, wide, labelX, labelY } = figureOf({ line, scale, units })
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

function figureOf({ line, scale, units }: Drawn): Readonly<{
  label: string
  wide: number
  labelX: number
  labelY: number
}> {
  const { from, to, lengthMm, side } = line
  const isAcross = side === 'left' || side === 'right'
  const label = units === 'metric' ? String(Math.round(lengthMm)) : rulerText(lengthMm, units)
  const wide = label.length * FIGURE_PX + ROOM_PX
  const isShort = lengthMm * scale < (isAcross ? wide : HIGH_PX) + 2 * ARROW_PX
  const [x, y] = [((from.xMm + to.xMm) / 2) * scale, ((from.yMm + to.yMm) / 2) * scale]
  if (!isShort) return { label, wide, labelX: x, labelY: y }
  return isAcross
    ? { label, wide, labelX: x, labelY: y - HIGH_PX / 2 - 3 }
    : { label, wide, labelX: x + wide / 2 + 4, labelY: y }
}

function arrow(x: number, y: number, towardX: number, towardY: number): string {
  const long = Math.hypot(towardX - x, towardY - y)
  const size = Math.min(ARROW_PX, long / 2)
  if (size <= 0) return ''
  const [ux, uy] = [((towardX - x) / long) * size, ((towardY - y) / long) * size]
  return `M${x + ux - uy * 0.55} ${y + uy + ux * 0.55}L${x} ${y}L${x + ux + uy * 0.55} ${y + uy - ux * 0.55}`
}
