import { type ReactNode, useMemo } from 'react'
import type { Tests } from '../../../api/tests.ts'
import { doseText } from '../../figures.ts'
import { useWidth } from '../../signs/useWidth.ts'
import { LIGHT_WORDS } from '../../words.ts'
import { dayShort } from '../days.ts'
import { TESTS_WORDS } from '../testsWords.ts'
import { AsTable } from './AsTable.tsx'
import { Axes } from './Axes.tsx'
import { groundWeave } from './groundWeave.ts'
import { OverBand } from './OverBand.tsx'
import { dayTicks, roundTicks } from './ticks.ts'

const HEIGHT_PX = 206
const NEAREST_PX = 54

/** Light units that harden the ground over time: what was read, and what is believed. */
export function GroundPlot({ tests }: Readonly<{ tests: Tests }>): ReactNode {
  const { ground, countsIn } = tests
  const [box, widthPx] = useWidth<HTMLDivElement>(388)
  const leftPx = 14 + 9 * doseText(ground.dose.high).length
  const woven = useMemo(() => {
    const field = { leftPx, rightPx: widthPx, topPx: 42, bottomPx: HEIGHT_PX - 30 }
    const weave = groundWeave(ground, field)
    return weave === null ? null : { field, ...weave }
  }, [ground, widthPx, leftPx])
  const unit = LIGHT_WORDS.units[countsIn]
  const [value, low, high] = [ground.dose.value, ground.dose.low, ground.dose.high].map(doseText)
  if (woven === null) return <p className="small">{TESTS_WORDS.groundNone}</p>
  return (
    <figure className="plot">
      <div
        ref={box}
        role="img"
        aria-label={TESTS_WORDS.groundLabel({
          unit: capital(unit),
          value: value ?? '',
          range: TESTS_WORDS.range(low ?? '', high ?? ''),
          count: ground.readings.length,
        })}
      >
        <svg
          className="plot-picture"
          viewBox={`0 0 ${widthPx} ${HEIGHT_PX}`}
          height={HEIGHT_PX}
          aria-hidden="true"
        >
          <Axes
            field={woven.field}
            up={woven.up}
            ups={roundTicks(woven.up, 4)}
            along={woven.along}
            alongs={dayTicks(woven.along, NEAREST_PX)}
          />
          {woven.stretches.map(({ band, threads }) => (
            <g key={band}>
              <path className="plot-band" d={band} />
              <path className="plot-thread" d={threads.join('')} />
            </g>
          ))}
          <OverBand
            band={woven.stretches.map(({ band }) => band).join('')}
            path={woven.uprights.join('')}
          />
          {woven.breaks.map(({ xPx, words }, at) => (
            <g key={`${xPx} ${words}`} className="plot-break">
              <path d={`M${xPx} ${at % 2 === 0 ? 4 : 24}V${HEIGHT_PX - 24}`} />
              <text
                x={xPx > widthPx / 2 ? xPx - 6 : xPx + 6}
                y={at % 2 === 0 ? 16 : 36}
                textAnchor={xPx > widthPx / 2 ? 'end' : 'start'}
              >
                {words}
              </text>
            </g>
          ))}
        </svg>
      </div>
      <figcaption className="small">{TESTS_WORDS.ground(capital(unit))}</figcaption>
      <GroundTable ground={ground} />
    </figure>
  )
}

function GroundTable({ ground }: Readonly<{ ground: Tests['ground'] }>): ReactNode {
  const { columns } = TESTS_WORDS
  const days = ground.days.toSorted((a, b) => (a.on < b.on ? -1 : 1))
  const range = (low: number, high: number): string =>
    TESTS_WORDS.range(doseText(low), doseText(high))
  return (
    <AsTable
      title={TESTS_WORDS.groundTable}
      columns={[columns.day, columns.says, columns.alone, columns.believed]}
      rows={ground.readings
        .toSorted((a, b) => (a.on < b.on ? 1 : -1))
        .map(({ id, on, says, low, high }) => {
          const then = days.findLast((day) => day.on <= on)
          return {
            key: id,
            cells: [
              dayShort(on),
              says,
              range(low, high),
              then === undefined ? '' : range(then.low, then.high),
            ],
          }
        })}
    />
  )
}

function capital(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1)
}
