import { type ReactNode, useEffect } from 'react'
import { useWidth } from '../signs/useWidth.ts'
import { DAY_WORDS } from './dayWords.ts'
import { called, type FloorProps } from './Floor.tsx'
import { shortNames } from './shortNames.ts'

const LEFT_PX = 92
const ROW_PX = 50
const BOX_PX = 42
const TOP_PX = 46
const LINE_PX = 12
/** Names in boxes want so much, or the chart is wider than the page and is moved inside itself. */
const LEAST_PX_PER_MIN = 5.4
/** No wider than this, or one sees too little of the day at once. */
const MOST_PX_PER_MIN = 10
/** Of a letter of the small text in bold, for what fits into a box. */
const LETTER_PX = 8
const PAD_PX = 10
const EACH_MIN = 30

/** Machines against the clock: boxes with names, and lines for what dries. */
export function Chart({ plan, nowMin, timeOf }: FloorProps): ReactNode {
  const [shown, widthPx] = useWidth<HTMLDivElement>(1000)
  const { stations, tasks, againFrom, finishMin } = plan
  const attended = stations.flatMap((station, at) =>
    station.people && at >= againFrom ? [station] : [],
  )
  const rows = attended.flatMap(({ name, machines }) =>
    Array.from({ length: machines }, (_, at) => ({ name, machine: at + 1, of: machines })),
  )
  const drying = stations.findLast(({ people }) => !people)
  const inRows = tasks.filter(({ station }) => rows.some(({ name }) => name === station))
  const from = Math.floor(Math.min(...inRows.map(({ startMin }) => startMin), nowMin) / 10) * 10
  const until = Math.max(finishMin, nowMin) + 12
  const short = shortNames(inRows.map(({ person }) => person))
  const nameOf = ({ person, screen }: (typeof inRows)[number]): string =>
    called({ person: short.get(person) ?? person, screen })
  const wantsPx = Math.max(
    ...inRows.map(
      (task) => (nameOf(task).length * LETTER_PX + PAD_PX) / (task.endMin - task.startMin),
    ),
    LEAST_PX_PER_MIN,
  )
  const perMin = Math.max(
    Math.min(wantsPx, MOST_PX_PER_MIN),
    (widthPx - LEFT_PX - 12) / (until - from),
  )
  const x = (min: number): number => LEFT_PX + (min - from) * perMin
  const shelves = drying === undefined ? 0 : drying.machines
  const bottom = TOP_PX + rows.length * ROW_PX + (shelves === 0 ? 0 : shelves * LINE_PX + 18)
  const right = x(until)
  const nowPx = x(nowMin)
  // beside the machines' names, not under them
  const platePx = Math.max(nowPx, LEFT_PX + 22)
  // once: where it is wider than the page it opens at the clock
  // biome-ignore lint/correctness/useExhaustiveDependencies: as said
  useEffect(() => {
    const { current } = shown
    current?.scrollTo({ left: nowPx - LEFT_PX - (current.clientWidth - LEFT_PX) / 3 })
  }, [])
  const ticks = halfHours({ from, until, timeOf })
  const names = [
    ...rows.map(({ name, machine, of }, row) => ({
      text: machineName(name, of > 1 ? machine : null),
      yPx: TOP_PX + row * ROW_PX + BOX_PX / 2 + 5,
    })),
    ...(drying === undefined
      ? []
      : [{ text: DAY_WORDS.shelves, yPx: TOP_PX + rows.length * ROW_PX + 24 }]),
  ]
  return (
    <div className="day-chart" ref={shown} tabIndex={0} role="region" aria-label={DAY_WORDS.chart}>
      <svg className="day-machines" width={LEFT_PX - 8} height={bottom + 8} aria-hidden="true">
        {names.map(({ text, yPx }) => (
          <text key={text} x={0} y={yPx}>
            {text}
          </text>
        ))}
      </svg>
      <svg
        className="day-picture"
        width={right}
        height={bottom + 8}
        viewBox={`0 0 ${right} ${bottom + 8}`}
        role="img"
        aria-label={`${DAY_WORDS.chart}. ${inRows
          .filter(({ endMin }) => endMin > nowMin)
          .map((task) => `${timeOf(task.startMin)} ${task.station}: ${called(task)}`)
          .join('. ')}`}
      >
        {ticks.map(({ min, text }) => (
          <g key={min}>
            <path className="day-hour" d={`M${x(min)} ${TOP_PX - 8}V${bottom}`} />
            {Math.abs(x(min) - x(nowMin)) > 44 && (
              <text className="day-hour-text" x={x(min)} y={TOP_PX - 16} textAnchor="middle">
                {text}
              </text>
            )}
          </g>
        ))}
        {rows.map(({ name, machine }, row) => (
          <g key={`${name} ${machine}`}>
            {inRows
              .filter((task) => task.station === name && task.machine === machine)
              .map((task) => (
                <g
                  key={`${task.person} ${task.screen} ${task.again} ${task.startMin}`}
                  className={`day-box${boxKind(task, nowMin)}`}
                >
                  <title>{`${timeOf(task.startMin)} ${called(task)}`}</title>
                  <rect
                    x={x(task.startMin) + 2}
                    y={TOP_PX + row * ROW_PX}
                    width={Math.max(2, (task.endMin - task.startMin) * perMin - 4)}
                    height={BOX_PX}
                  />
                  {task.again > 0 && (
                    <path
                      className="day-hatch"
                      d={hatch({
                        left: x(task.startMin) + 3,
                        right: x(task.endMin) - 3,
                        top: TOP_PX + row * ROW_PX + 1,
                      })}
                    />
                  )}
                  {task.failed && (
                    <path
                      className="day-struck"
                      d={`M${x(task.startMin) + 2} ${TOP_PX + row * ROW_PX}L${x(task.endMin) - 2} ${TOP_PX + row * ROW_PX + BOX_PX}`}
                    />
                  )}
                  <text
                    x={x((task.startMin + task.endMin) / 2)}
                    y={TOP_PX + row * ROW_PX + BOX_PX / 2 + (task.again > 0 ? 9 : 5)}
                    textAnchor="middle"
                  >
                    {fitted(nameOf(task), (task.endMin - task.startMin) * perMin - PAD_PX)}
                  </text>
                </g>
              ))}
          </g>
        ))}
        {drying !== undefined && (
          <g>
            {tasks
              .filter(({ station, failed }) => station === drying.name && !failed)
              .map((task) => (
                <path
                  key={`${task.person} ${task.screen} ${task.again}`}
                  className="day-shelf"
                  d={`M${x(task.startMin)} ${shelfPx(rows.length, task.machine)}H${x(task.endMin)}`}
                />
              ))}
          </g>
        )}
        <path className="day-all" d={`M${x(finishMin)} ${TOP_PX - 8}V${bottom}`} />
        <text className="day-hour-text" x={x(finishMin) - 6} y={bottom + 2} textAnchor="end">
          {DAY_WORDS.allDone}
        </text>
        <path className="day-now" d={`M${x(nowMin)} ${TOP_PX - 10}V${bottom}`} />
        <rect className="day-now-plate" x={platePx - 30} y={TOP_PX - 38} width={60} height={26} />
        <text className="day-now-text" x={platePx} y={TOP_PX - 20} textAnchor="middle">
          {timeOf(nowMin)}
        </text>
      </svg>
    </div>
  )
}

function shelfPx(rows: number, machine: number): number {
  return TOP_PX + rows * ROW_PX + 12 + (machine - 1) * LINE_PX
}

function boxKind(
  { startMin, endMin }: Readonly<{ startMin: number; endMin: number }>,
  nowMin: number,
): string {
  if (endMin <= nowMin) return ' day-box-past'
  return startMin <= nowMin ? ' day-box-now' : ''
}

function machineName(name: string, machine: number | null): string {
  const word = DAY_WORDS.machines[name] ?? name
  return machine === null ? word : `${word} ${machine}`
}

/** The name, or as much of it as there is room for. */
function fitted(name: string, roomPx: number): string {
  const letters = Math.max(1, Math.floor(roomPx / LETTER_PX))
  return name.length <= letters ? name : `${name.slice(0, Math.max(1, letters - 1))}…`
}

function halfHours({
  from,
  until,
  timeOf,
}: Readonly<{ from: number; until: number; timeOf: FloorProps['timeOf'] }>): readonly Readonly<{
  min: number
  text: string
}>[] {
  const [, minutes = 0] = timeOf(0).split(':').map(Number)
  const first = Math.ceil((from + minutes) / EACH_MIN) * EACH_MIN - minutes
  const count = Math.max(0, Math.floor((until - first) / EACH_MIN) + 1)
  return Array.from({ length: count }, (_, at) => first + at * EACH_MIN).map((min) => ({
    min,
    text: timeOf(min),
  }))
}

/** Short slanting strokes along the upper edge. */
function hatch({
  left,
  right,
  top,
}: Readonly<{ left: number; right: number; top: number }>): string {
  const count = Math.max(0, Math.floor((right - left - 6) / 7))
  return Array.from({ length: count }, (_, at) => `M${left + at * 7} ${top + 8}l5 -7`).join('')
}
