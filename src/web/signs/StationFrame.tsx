import type { ReactNode } from 'react'
import './frames.css'

/** Where a screen is, seen on its frame. */
export type Station = 'not yet' | 'here now' | 'drying' | 'done' | 'make again'

export function StationFrame({
  state,
  size = 24,
}: Readonly<{ state: Station; size?: number }>): ReactNode {
  return (
    <svg
      className="station"
      viewBox="0 0 24 24"
      width={size}
      height={size}
      role="img"
      aria-label={state}
    >
      <FrameDrawing state={state} />
    </svg>
  )
}

/** The frame alone, 24 by 24, to stand in another drawing. */
export function FrameDrawing({ state }: Readonly<{ state: Station }>): ReactNode {
  return (
    <>
      <rect
        className={state === 'here now' ? 'frame-here' : 'frame-wood'}
        x={0.75}
        y={0.75}
        width={22.5}
        height={22.5}
      />
      <rect className={WITHIN[state]} x={4.5} y={4.5} width={15} height={15} />
      {state === 'done' && (
        <path
          className="frame-threads"
          d="M7.5 4.5V19.5M10.5 4.5V19.5M13.5 4.5V19.5M16.5 4.5V19.5M4.5 7.5H19.5M4.5 10.5H19.5M4.5 13.5H19.5M4.5 16.5H19.5"
        />
      )}
      {state === 'drying' && (
        <path
          className="frame-threads"
          d="M7.5 4.5V19.5M10.5 4.5V19.5M13.5 4.5V19.5M16.5 4.5V19.5"
        />
      )}
      {state === 'make again' && <path className="frame-struck" d="M4.5 4.5 19.5 19.5" />}
    </>
  )
}

const WITHIN: Readonly<Record<Station, string>> = {
  'not yet': 'frame-empty',
  'here now': 'frame-mesh-here',
  drying: 'frame-empty',
  done: 'frame-mesh',
  'make again': 'frame-empty',
}
