import { type ReactNode, useMemo } from 'react'
import type { Lamp } from '../../../api/lamp.ts'
import { scaleText } from '../../figures.ts'
import { useWidth } from '../../signs/useWidth.ts'
import { AsTable } from '../plots/AsTable.tsx'
import { Axes, bandOf, pathOf } from '../plots/Axes.tsx'
import { OverBand } from '../plots/OverBand.tsx'
import { lineScale, roundSpan, roundTicks } from '../plots/ticks.ts'
import { TESTS_WORDS } from '../testsWords.ts'
import { LAMP_WORDS } from './lampWords.ts'

type Ageing = NonNullable<Lamp['ageing']>
const HEIGHT_PX = 220

/** Counts a second over the lamp's hours: what was timed, and the trend with its band. */
export function AgeingPlot({ ageing }: Readonly<{ ageing: Ageing }>): ReactNode {
  const [box, widthPx] = useWidth<HTMLDivElement>(388)
  const drawn = useMemo(() => drawnAgeing(ageing, widthPx), [ageing, widthPx])
  return (
    <figure className="plot">
      <div
        ref={box}
        role="img"
        aria-label={LAMP_WORDS.ageingAlt(scaleText(drawn.along.low), scaleText(drawn.along.high))}
      >
        <svg
          className="plot-picture"
          viewBox={`0 0 ${widthPx} ${HEIGHT_PX}`}
          height={HEIGHT_PX}
          aria-hidden="true"
        >
          <Axes
            field={drawn.field}
            up={drawn.up}
            ups={roundTicks(drawn.up, 4)}
            along={drawn.along}
            alongs={roundTicks(drawn.along, Math.max(2, widthPx / 90))}
          />
          <path className="plot-band" d={drawn.band} />
          <path className="plot-thread" d={drawn.line} />
          <OverBand band={drawn.band} path={drawn.threads} />
        </svg>
      </div>
      <figcaption className="small">{LAMP_WORDS.ageingMore}</figcaption>
      <AsTable
        title={LAMP_WORDS.ageingTable}
        columns={[LAMP_WORDS.hours, LAMP_WORDS.perSec, TESTS_WORDS.columns.alone]}
        rows={ageing.points.map(({ lampHours, hotPerSec, low, high }) => ({
          key: `${lampHours} ${hotPerSec}`,
          cells: [
            scaleText(lampHours),
            scaleText(hotPerSec),
            TESTS_WORDS.range(scaleText(low), scaleText(high)),
          ],
        }))}
      />
    </figure>
  )
}

function drawnAgeing({ points, line }: Ageing, widthPx: number) {
  const hours = [...points, ...line].map(({ lampHours }) => lampHours)
  const lows = [...points, ...line].map(({ low }) => low)
  const highs = [...points, ...line].map(({ high }) => high)
  const low = Math.max(0, Math.min(...lows))
  const span = roundSpan({ low, high: Math.max(low + 0.01, ...highs) }, 4)
  const field = { leftPx: 52, rightPx: widthPx, topPx: 12, bottomPx: HEIGHT_PX - 30 }
  const [first, last] = [Math.min(...hours), Math.max(...hours)]
  const pad = Math.max(1, (last - first) * 0.03)
  const up = lineScale(span, { fromPx: field.bottomPx, toPx: field.topPx })
  const along = lineScale(
    { low: Math.max(0, first - pad), high: last + pad },
    { fromPx: field.leftPx, toPx: field.rightPx },
  )
  return {
    field,
    up,
    along,
    band: bandOf(
      line.map((at) => ({
        xPx: along.px(at.lampHours),
        lowPx: up.px(at.low),
        highPx: up.px(at.high),
      })),
    ),
    line: pathOf(line.map((at) => ({ xPx: along.px(at.lampHours), yPx: up.px(at.value) }))),
    threads: points
      .map((at) => `M${along.px(at.lampHours)} ${up.px(at.low)}V${up.px(at.high)}`)
      .join(''),
  }
}
