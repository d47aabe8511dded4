import type { ReactNode } from 'react'
import type { Evenness } from '../../../api/lamp.ts'
import { useWidth } from '../../signs/useWidth.ts'
import { AsTable } from '../plots/AsTable.tsx'
import { EVENNESS_WORDS } from './evennessWords.ts'

type Grid = NonNullable<Evenness['grid']>
/** The darkest cell is so much ink: its figures can still be read on it. */
const DARKEST = 0.36

/** Three figures and some air on either side, px. */
const FIGURES_PX = 38

/** How even the light is, as shades of ink with their figures; the glass's front at the bottom. */
export function EvennessMap({
  grid,
  glass,
}: Readonly<{ grid: Grid; glass: Evenness['glass'] }>): ReactNode {
  const [box, widthPx] = useWidth<HTMLDivElement>(350)
  const { columns, rows, shares, sdShare } = grid
  const ratio = glass === null ? rows / columns : glass.heightMm / glass.widthMm
  const [cellWidth, cellHeight] = [widthPx / columns, (widthPx * ratio) / rows]
  const [least, most] = [Math.min(...shares), Math.max(...shares)]
  const inkOf = (share: number): number =>
    most - least < 0.005 ? 0 : (DARKEST * (most - share)) / (most - least)
  // where cells are narrow only some of them have room for their figures; the table has all
  const every = Math.max(1, Math.ceil(FIGURES_PX / cellWidth))
  const fromBack = Array.from({ length: rows }, (_, at) => rows - 1 - at)
  return (
    <figure className="plot">
      <div
        ref={box}
        role="img"
        className="even-map"
        aria-label={EVENNESS_WORDS.mapAlt(hundredths(least), hundredths(most))}
      >
        <svg viewBox={`0 0 ${widthPx} ${widthPx * ratio}`} width="100%" aria-hidden="true">
          {shares.map((share, at) => {
            const [column, row] = [at % columns, Math.floor(at / columns)]
            const atEdge = every > 1 && column === columns - 1
            return (
              <g
                key={`${column} ${row}`}
                transform={`translate(${column * cellWidth} ${(rows - 1 - row) * cellHeight})`}
              >
                <rect className="even-sheet" width={cellWidth} height={cellHeight} />
                <rect
                  className="even-ink"
                  width={cellWidth}
                  height={cellHeight}
                  fillOpacity={inkOf(share).toFixed(3)}
                />
                {(column - Math.floor(every / 2)) % every === 0 && (
                  <text
                    className="even-figure"
                    x={atEdge ? cellWidth - 4 : cellWidth / 2}
                    y={cellHeight / 2 + 6}
                    textAnchor={atEdge ? 'end' : 'middle'}
                  >
                    {hundredths(share)}
                  </text>
                )}
              </g>
            )
          })}
          <rect className="even-frame" width={widthPx} height={widthPx * ratio} />
        </svg>
        <p className="even-front">{EVENNESS_WORDS.front}</p>
      </div>
      <figcaption className="small">{EVENNESS_WORDS.mapMore(hundredths(sdShare))}</figcaption>
      <AsTable
        title={EVENNESS_WORDS.table}
        columns={[
          EVENNESS_WORDS.corner,
          ...Array.from({ length: columns }, (_, at) => String(at + 1)),
        ]}
        rows={fromBack.map((row) => ({
          key: String(row),
          cells: [
            EVENNESS_WORDS.row(row + 1),
            ...shares.slice(row * columns, (row + 1) * columns).map(hundredths),
          ],
        }))}
      />
    </figure>
  )
}

function hundredths(share: number): string {
  return String(Math.round(100 * share))
}
