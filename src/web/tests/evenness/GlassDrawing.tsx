import { type PointerEvent, type ReactNode, useRef } from 'react'
import type { Glass } from './evennessDraft.ts'
import { EVENNESS_WORDS } from './evennessWords.ts'

const WIDTH = 388

/** The glass from above, front at the bottom, with the wedges on it; a tap lays another one. */
export function GlassDrawing({
  glass,
  places,
  onPlace,
}: Readonly<{
  glass: Glass
  places: readonly (Readonly<{ xMm: number; yMm: number }> | null)[]
  onPlace: (place: Readonly<{ xMm: number; yMm: number }>) => void
}>): ReactNode {
  const box = useRef<HTMLDivElement>(null)
  const height = (WIDTH * glass.heightMm) / glass.widthMm
  const lay = ({ clientX, clientY }: PointerEvent): void => {
    const edge = box.current?.getBoundingClientRect()
    if (edge === undefined || edge.width === 0) return
    const [x, y] = [(clientX - edge.left) / edge.width, (edge.bottom - clientY) / edge.height]
    if (x < 0 || x > 1 || y < 0 || y > 1) return
    onPlace({ xMm: x * glass.widthMm, yMm: y * glass.heightMm })
  }
  return (
    <div>
      {/* The list beside it adds places by keys: this is its equal for a finger. */}
      <div
        ref={box}
        className="glass"
        role="img"
        aria-label={EVENNESS_WORDS.glassAlt}
        onPointerUp={lay}
      >
        <svg viewBox={`0 0 ${WIDTH} ${height}`} width="100%" aria-hidden="true">
          <rect className="glass-sheet" width={WIDTH} height={height} />
          {places.map((place, at) =>
            place === null ? null : (
              <g
                key={at}
                transform={`translate(${(place.xMm / glass.widthMm) * WIDTH} ${height - (place.yMm / glass.heightMm) * height})`}
              >
                <rect className="glass-wedge" x={-24} y={-9} width={48} height={18} />
                <path className="glass-steps" d="M-16 -9V9M-8 -9V9M0 -9V9M8 -9V9M16 -9V9" />
                <circle className="glass-ring" r={13} />
                <text y={5} textAnchor="middle">
                  {at + 1}
                </text>
              </g>
            ),
          )}
        </svg>
      </div>
      <p className="even-front">{EVENNESS_WORDS.front}</p>
    </div>
  )
}
