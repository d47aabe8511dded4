import type { ReactNode } from 'react'

const MOST = 90
const WIDTH = 1200
const HEIGHT = 36

/** A clock as threads that fall, one a second where it has ninety or fewer. */
export function Threads({ sec, left }: Readonly<{ sec: number; left: number }>): ReactNode {
  const count = Math.max(1, Math.min(MOST, Math.round(sec)))
  const spent = count - Math.ceil((Math.max(0, left) / sec) * count)
  const pitch = WIDTH / count
  const fallen: string[] = []
  const hanging: string[] = []
  for (let at = 0; at < count; at++) {
    const x = (at + 0.5) * pitch
    if (at < spent) fallen.push(`M${x} ${HEIGHT}q${pitch / 4} -4 ${pitch / 5} -9`)
    else hanging.push(`M${x} 0v${HEIGHT}`)
  }
  return (
    <svg
      className="bench-threads"
      viewBox={`0 0 ${WIDTH} ${HEIGHT}`}
      preserveAspectRatio="none"
      aria-hidden="true"
    >
      <path className="bench-thread" d={hanging.join('')} strokeWidth={pitch / 2} />
      <path className="bench-spent" d={fallen.join('')} strokeWidth={2} />
    </svg>
  )
}
