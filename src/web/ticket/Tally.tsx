import type { ReactNode } from 'react'

const FIVE = 26
const STROKE = 4.6
const HEIGHT = 18
const FIVES_A_LINE = 10
const LINE = 26
const MOST = 250

/** Five-bar tallies, as on the wall by the press; beside it the number stands in words. */
export function Tally({ count }: Readonly<{ count: number }>): ReactNode {
  if (count === 0) return null
  const shown = Math.min(count, MOST)
  const fives = Math.ceil(shown / 5)
  const lines = Math.ceil(fives / FIVES_A_LINE)
  return (
    <svg
      className="tally"
      viewBox={`0 0 ${Math.min(fives, FIVES_A_LINE) * FIVE} ${(lines - 1) * LINE + HEIGHT + 2}`}
      width={Math.min(fives, FIVES_A_LINE) * FIVE}
      height={(lines - 1) * LINE + HEIGHT + 2}
      aria-hidden="true"
    >
      {Array.from({ length: fives }, (_, five) => {
        const left = (five % FIVES_A_LINE) * FIVE + 1
        const top = Math.floor(five / FIVES_A_LINE) * LINE + 1
        const strokes = Math.min(5, shown - five * 5)
        return <path key={five} d={pathOf({ left, top, strokes })} />
      })}
    </svg>
  )
}

/** Four upright strokes, each a little different, and the fifth across them. */
function pathOf({
  left,
  top,
  strokes,
}: Readonly<{ left: number; top: number; strokes: number }>): string {
  const upright = Array.from({ length: Math.min(4, strokes) }, (_, at) => {
    const lean = ((at * 7 + left) % 3) - 1
    return `M${left + at * STROKE} ${top}l${lean} ${HEIGHT}`
  }).join('')
  return strokes < 5
    ? upright
    : `${upright}M${left - 1} ${top + HEIGHT - 4}l${FIVE - 7} -${HEIGHT - 9}`
}
