import type { ReactNode } from 'react'
import './ruler.css'

export type Units = 'metric' | 'imperial'

export type RulerProps = Readonly<{
  /** Where it lies: over a picture or left of it. */
  side: 'top' | 'left'
  /** Length of the ruler on the page. */
  lengthPx: number
  /** What its first pixel measures. */
  startMm: number
  pxPerMm: number
  units: Units
}>

const DEEP_PX = { top: 20, left: 40 } as const
const NUMBER_EVERY_PX = 70
const MM_PER_INCH = 25.4
/** Where even the longest step is too short, numbers stand closer. */
const LONGEST = 500

/** Steps a person counts in, in mm or in inches. */
const STEPS = [0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50, 100, 200, 500]
const INCH_STEPS = [1 / 16, 1 / 8, 1 / 4, 1 / 2, 1, 2, 4, 8, 16]

/** A true-size ruler: long ticks with numbers, short ones between. */
export function Ruler({ side, lengthPx, startMm, pxPerMm, units }: RulerProps): ReactNode {
  const unitMm = units === 'metric' ? 1 : MM_PER_INCH
  const steps = units === 'metric' ? STEPS : INCH_STEPS
  const long = steps.find((step) => step * unitMm * pxPerMm >= NUMBER_EVERY_PX) ?? LONGEST
  const parts = units === 'metric' ? (String(long).includes('2') ? 4 : 5) : 4
  const short = long / parts
  const first = Math.ceil(startMm / unitMm / short - 1e-9)
  const last = Math.floor((startMm + lengthPx / pxPerMm) / unitMm / short + 1e-9)
  const ticks = Array.from({ length: Math.max(0, last - first + 1) }, (_, at) => first + at)
  const place = (tick: number): number => (tick * short * unitMm - startMm) * pxPerMm
  const isTop = side === 'top'
  const deep = DEEP_PX[side]
  const [width, height] = isTop ? [lengthPx, deep] : [deep, lengthPx]
  return (
    <svg
      className="ruler"
      viewBox={`0 0 ${width} ${height}`}
      width={width}
      height={height}
      aria-hidden="true"
    >
      {ticks.map((tick) => {
        const px = place(tick)
        const isLong = tick % parts === 0
        const tall = isLong ? 12 : 6
        return (
          <g key={tick}>
            <path d={isTop ? `M${px} ${deep}v${-tall}` : `M${deep} ${px}h${-tall}`} />
            {isLong && tick > 0 && (
              <text
                x={isTop ? px + 4 : deep - 8}
                y={isTop ? 12 : px - 4}
                textAnchor={isTop ? 'start' : 'end'}
              >
                {Number(((tick / parts) * long).toFixed(2))}
              </text>
            )}
          </g>
        )
      })}
    </svg>
  )
}
