import type { ReactNode } from 'react'
import type { TestDesign } from '../../../api/tests.ts'
import { doseText } from '../../figures.ts'
import { STRIP_WORDS } from './stripWords.ts'

const WIDTH = 388
const LEFT = 18
const TOP = 8
/** Reeds as they are printed in every band: stroke widths in parts of a band's height. */
const REEDS = [0.4, 0.8, 1.2, 1.8, 2.6, 3.6, 5, 7] as const

/** The film with its bands, the largest dose on top, and the card as it lies first. */
export function StripPicture({ design }: Readonly<{ design: TestDesign }>): ReactNode {
  const bands = design.bands.toSorted((a, b) => b.doseLu - a.doseLu)
  const band = Math.max(44, Math.min(76, 420 / bands.length))
  const height = TOP * 2 + band * bands.length
  const value = (at: number): string => doseText(bands.at(at)?.doseLu ?? 0)
  return (
    <div
      role="img"
      className="strip-picture"
      aria-label={STRIP_WORDS.filmAlt(bands.length, value(0), value(-1))}
    >
      <svg viewBox={`0 0 ${WIDTH} ${height}`} width="100%" aria-hidden="true">
        <rect
          className="strip-film"
          x={LEFT}
          y={TOP}
          width={WIDTH - 2 * LEFT}
          height={height - 2 * TOP}
        />
        {bands.map(({ number, doseLu }, at) => (
          <g key={number} transform={`translate(0 ${TOP + at * band})`}>
            <text className="strip-dose" x={LEFT + 14} y={band / 2 + 9}>
              {doseText(doseLu)}
            </text>
            <Reeds xPx={LEFT + 92} heightPx={band} />
            <text className="strip-number" x={WIDTH - LEFT - 12} y={band / 2 + 6} textAnchor="end">
              {number}
            </text>
          </g>
        ))}
        {bands.map(({ number }, at) => (
          <Edge key={number} yPx={TOP + at * band} />
        ))}
        <Edge yPx={TOP + bands.length * band} />
        <g transform={`translate(0 ${TOP + band})`}>
          <rect
            className="strip-card"
            x={LEFT - 10}
            y={0}
            width={WIDTH - 2 * LEFT + 20}
            height={band * (bands.length - 1) + 4}
          />
          <path className="strip-card-edge" d={`M${LEFT - 10} 0H${WIDTH - LEFT + 10}`} />
        </g>
      </svg>
    </div>
  )
}

/** Where the card is laid to, marked at both sides. */
function Edge({ yPx }: Readonly<{ yPx: number }>): ReactNode {
  return (
    <g className="strip-edge">
      <path d={`M${LEFT} ${yPx}H${WIDTH - LEFT}`} />
      <path
        className="strip-point"
        d={`M2 ${yPx - 6}L${LEFT - 2} ${yPx}L2 ${yPx + 6}ZM${WIDTH - 2} ${yPx - 6}L${WIDTH - LEFT + 2} ${yPx}L${WIDTH - 2} ${yPx + 6}Z`}
      />
    </g>
  )
}

function Reeds({ xPx, heightPx }: Readonly<{ xPx: number; heightPx: number }>): ReactNode {
  return (
    <g className="strip-reeds">
      {REEDS.map((width, at) => {
        const x = xPx + at * 25
        const tall = heightPx * (0.62 + 0.1 * Math.sin(at * 2.1))
        return (
          <path
            key={width}
            strokeWidth={width}
            d={`M${x} ${heightPx - 7}C${x + 2} ${heightPx - tall * 0.6} ${x + 5} ${heightPx - tall * 0.9} ${x + 11} ${heightPx - tall - 4}`}
          />
        )
      })}
    </g>
  )
}
