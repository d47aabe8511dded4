import type { ReactNode } from 'react'
import './waxRing.css'

/** Look here: a ring with the number that stands in the list as well. */
export function WaxRing({
  number,
  size = 28,
}: Readonly<{ number: number; size?: number }>): ReactNode {
  return (
    <svg
      className="wax-ring"
      viewBox="0 0 28 28"
      width={size}
      height={size}
      role="img"
      aria-label={String(number)}
    >
      <circle cx={14} cy={14} r={12.6} />
      <text x={14} y={19} textAnchor="middle">
        {number}
      </text>
    </svg>
  )
}
