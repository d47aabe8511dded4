import type { ReactNode } from 'react'
import './plots.css'
import type { Line, Tick } from './ticks.ts'

/** Where a picture of figures lies in its drawing. */
export type Field = Readonly<{ leftPx: number; rightPx: number; topPx: number; bottomPx: number }>

/** Faint lines with their numbers, and what stands below. */
export function Axes({
  field,
  up,
  ups,
  along,
  alongs,
}: Readonly<{
  field: Field
  up: Line
  ups: readonly Tick[]
  along: Line
  alongs: readonly Tick[]
}>): ReactNode {
  return (
    <g className="plot-axes">
      {ups.map(({ at, text }) => (
        <g key={at}>
          <path d={`M${field.leftPx} ${n(up.px(at))}H${field.rightPx}`} />
          <text x={field.leftPx - 8} y={up.px(at) + 5.5} textAnchor="end">
            {text}
          </text>
        </g>
      ))}
      {alongs.map(({ at, text }) => (
        <text
          key={at}
          x={insideOf(field, along.px(at), text)}
          y={field.bottomPx + 24}
          textAnchor="middle"
        >
          {text}
        </text>
      ))}
    </g>
  )
}

/** The middle of a word that may not leave the drawing. */
function insideOf({ rightPx }: Field, px: number, text: string): number {
  const half = 4.4 * text.length
  return Math.max(half, Math.min(rightPx - half, px))
}

/** A path through points in pixels. */
export function pathOf(points: readonly Readonly<{ xPx: number; yPx: number }>[]): string {
  return points.map(({ xPx, yPx }, at) => `${at === 0 ? 'M' : 'L'}${n(xPx)} ${n(yPx)}`).join('')
}

/** A band between two edges that have the same x. */
export function bandOf(
  edge: readonly Readonly<{ xPx: number; lowPx: number; highPx: number }>[],
): string {
  if (edge.length === 0) return ''
  const upper = edge.map(({ xPx, highPx }) => ({ xPx, yPx: highPx }))
  const lower = edge.map(({ xPx, lowPx }) => ({ xPx, yPx: lowPx })).toReversed()
  return `${pathOf([...upper, ...lower])}Z`
}

export function n(value: number): string {
  return String(Math.round(value * 10) / 10)
}
