import { type ReactNode, useMemo } from 'react'
import type { Lamp } from '../../../api/lamp.ts'
import { scaleText } from '../../figures.ts'
import { useWidth } from '../../signs/useWidth.ts'
import { AsTable } from '../plots/AsTable.tsx'
import { Axes, pathOf } from '../plots/Axes.tsx'
import { lineScale, roundSpan, roundTicks } from '../plots/ticks.ts'
import { LAMP_WORDS } from './lampWords.ts'

const HEIGHT_PX = 240

/** Counts over the clock: what was read, and the lamp's line through it. */
export function WarmUpPlot({
  curve,
  pairs,
}: Readonly<{
  curve: NonNullable<Lamp['warmUp']>['curve']
  pairs: Lamp['timings'][number]['pairs']
}>): ReactNode {
  const [box, widthPx] = useWidth<HTMLDivElement>(388)
  const drawn = useMemo(() => {
    const all = [...curve, ...pairs]
    const most = Math.max(1, ...all.map(({ count }) => count))
    const longest = Math.max(1, ...all.map(({ clockSec }) => clockSec))
    const span = roundSpan({ low: 0, high: most }, 4)
    const field = {
      leftPx: 16 + 9.5 * scaleText(span.high).length,
      rightPx: widthPx,
      topPx: 12,
      bottomPx: HEIGHT_PX - 30,
    }
    const up = lineScale(span, { fromPx: field.bottomPx, toPx: field.topPx })
    const along = lineScale(
      { low: 0, high: longest * 1.03 },
      { fromPx: field.leftPx, toPx: field.rightPx },
    )
    const placed = (list: typeof all): readonly Readonly<{ xPx: number; yPx: number }>[] =>
      list.map(({ clockSec, count }) => ({ xPx: along.px(clockSec), yPx: up.px(count) }))
    return { field, up, along, most, longest, line: pathOf(placed(curve)), points: placed(pairs) }
  }, [curve, pairs, widthPx])
  return (
    <figure className="plot">
      <div
        ref={box}
        role="img"
        aria-label={LAMP_WORDS.warmUpAlt(scaleText(drawn.most), scaleText(drawn.longest))}
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
          <path className="plot-curve" d={drawn.line} />
          {drawn.points.map(({ xPx, yPx }, at) => (
            <circle key={`${at} ${xPx}`} className="plot-point" cx={xPx} cy={yPx} r={4.5} />
          ))}
        </svg>
      </div>
      <figcaption className="small">{LAMP_WORDS.warmUpMore}</figcaption>
      <AsTable
        title={LAMP_WORDS.pairsTable}
        columns={[LAMP_WORDS.clock, LAMP_WORDS.count, LAMP_WORDS.curve]}
        rows={pairs.map(({ clockSec, count }) => ({
          key: `${clockSec} ${count}`,
          cells: [
            LAMP_WORDS.sec(scaleText(clockSec)),
            scaleText(count),
            scaleText(countAt(curve, clockSec)),
          ],
        }))}
      />
    </figure>
  )
}

/** What the line says at a clock's second, straight between its points. */
function countAt(curve: NonNullable<Lamp['warmUp']>['curve'], clockSec: number): number {
  const after = curve.findIndex((point) => point.clockSec >= clockSec)
  const [right, left] = [curve[after], curve[after - 1]]
  if (right === undefined) return curve.at(-1)?.count ?? 0
  if (left === undefined) return right.count
  const part = (clockSec - left.clockSec) / Math.max(1e-9, right.clockSec - left.clockSec)
  return left.count + part * (right.count - left.count)
}
