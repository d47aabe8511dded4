import type { ReactNode } from 'react'
import { FrameDrawing } from './StationFrame.tsx'

const PITCH = 28.2

/** So many screens in ten: always with the same in words beside it. */
export function TenFrames({ good }: Readonly<{ good: number }>): ReactNode {
  return (
    <svg
      className="ten-frames"
      viewBox={`0 0 ${24 + 4 * PITCH} ${24 + PITCH}`}
      width={24 + 4 * PITCH}
      height={24 + PITCH}
      aria-hidden="true"
    >
      {Array.from({ length: 10 }, (_, at) => (
        <g key={at} transform={`translate(${(at % 5) * PITCH} ${at < 5 ? 0 : PITCH})`}>
          <FrameDrawing state={at < good ? 'done' : 'not yet'} />
        </g>
      ))}
    </svg>
  )
}
