import { type PointerEvent, type ReactNode, useMemo, useRef, useState } from 'react'
import type { Evenness } from '../../api/lamp.ts'
import { PATHS } from '../../api/paths.ts'
import { Standing } from '../frame/Standing.tsx'
import { Link, ROUTES } from '../router.tsx'
import { useUnits } from '../shop.tsx'
import { Entry } from '../tests/Entry.tsx'
import { lengthEntry, lengthWritten, valueOf } from '../tests/written.ts'
import { useAsked } from '../useAsked.ts'
import './glass.css'
import { asking } from '../ask.ts'
import { GLASS_WORDS } from './glassWords.ts'

type Place = Readonly<{ xMm: number; yMm: number }>
type Glass = NonNullable<Evenness['glass']>

export type GlassPlaceProps = Readonly<{
  unit: string
  /** Null: in the middle. */
  place: Place | null
  onPlace: (place: Place | null) => void
}>

/** The glass of a unit from above: one taps, or writes, where something lies on it. */
export function GlassPlace({ unit, place, onPlace }: GlassPlaceProps): ReactNode {
  const [asked, askAgain] = useAsked<Evenness>(
    useMemo(() => ({ path: asking(PATHS.evenness, { unit }) }), [unit]),
  )
  const { answer } = asked
  if (answer === null) {
    return <Standing asked={asked} working={GLASS_WORDS.working} onAgain={askAgain} />
  }
  const { glass, grid } = answer
  if (glass === null || grid === null) {
    return (
      <p className="how">
        {GLASS_WORDS.unmeasured}{' '}
        <Link to={`${ROUTES.evenness}?${new URLSearchParams({ unit }).toString()}`}>
          {GLASS_WORDS.measure}
        </Link>
      </p>
    )
  }
  return <OnMeasured key={unit} {...{ glass, grid, place, onPlace }} />
}

function OnMeasured({
  glass,
  grid,
  place,
  onPlace,
}: Readonly<{
  glass: Glass
  grid: NonNullable<Evenness['grid']>
  place: Place | null
  onPlace: GlassPlaceProps['onPlace']
}>): ReactNode {
  const units = useUnits()
  const middle = { xMm: glass.widthMm / 2, yMm: glass.heightMm / 2 }
  const at = place ?? middle
  const written = (mm: number): string => lengthEntry(mm, units)
  const [texts, setTexts] = useState({ x: written(at.xMm), y: written(at.yMm) })
  const lay = (where: Place | null): void => {
    const { xMm, yMm } = where ?? middle
    setTexts({ x: written(xMm), y: written(yMm) })
    onPlace(where)
  }
  const most = { x: glass.widthMm, y: glass.heightMm }
  const lengthOf = (side: 'x' | 'y', text: string): number | null =>
    valueOf(lengthWritten(text, { low: 0, high: most[side] }, units))
  const write = (changed: Partial<typeof texts>): void => {
    const next = { ...texts, ...changed }
    setTexts(next)
    const [xMm, yMm] = [lengthOf('x', next.x), lengthOf('y', next.y)]
    if (xMm !== null && yMm !== null) onPlace({ xMm, yMm })
  }
  const column = Math.min(grid.columns - 1, Math.floor((at.xMm / glass.widthMm) * grid.columns))
  const row = Math.min(grid.rows - 1, Math.floor((at.yMm / glass.heightMm) * grid.rows))
  const share = grid.shares[row * grid.columns + column] ?? 1
  return (
    <>
      <p className="small">{GLASS_WORDS.how}</p>
      <Drawing glass={glass} at={at} isMiddle={place === null} onLay={lay} />
      <div className="entries">
        {(['x', 'y'] as const).map((side) => (
          <Entry
            key={side}
            label={GLASS_WORDS[side]}
            value={texts[side]}
            figures="decimal"
            unit={GLASS_WORDS.units[units]}
            wrong={
              lengthOf(side, texts[side]) === null
                ? GLASS_WORDS.wrong(texts[side].trim(), written(most[side]))
                : null
            }
            onEntry={(text) => write({ [side]: text })}
          />
        ))}
      </div>
      <p aria-live="polite">
        {place !== null && GLASS_WORDS.share(String(Math.round(100 * share)))}
      </p>
      {place !== null && (
        <button type="button" className="word-link" onClick={() => lay(null)}>
          {GLASS_WORDS.toMiddle}
        </button>
      )}
    </>
  )
}

/** The fields beside it are its equal for keys. */
function Drawing({
  glass,
  at,
  isMiddle,
  onLay,
}: Readonly<{
  glass: Glass
  at: Place
  isMiddle: boolean
  onLay: (place: Place) => void
}>): ReactNode {
  const units = useUnits()
  const box = useRef<HTMLDivElement>(null)
  const height = (WIDTH * glass.heightMm) / glass.widthMm
  const tap = ({ clientX, clientY }: PointerEvent): void => {
    const edge = box.current?.getBoundingClientRect()
    if (edge === undefined || edge.width === 0) return
    const [x, y] = [(clientX - edge.left) / edge.width, (edge.bottom - clientY) / edge.height]
    if (x < 0 || x > 1 || y < 0 || y > 1) return
    const whole = (mm: number): number => Math.round(mm / 10) * 10
    onLay({ xMm: whole(x * glass.widthMm), yMm: whole(y * glass.heightMm) })
  }
  const [x, y] = [(at.xMm / glass.widthMm) * WIDTH, height - (at.yMm / glass.heightMm) * height]
  const says = isMiddle
    ? GLASS_WORDS.middle
    : GLASS_WORDS.at(
        lengthEntry(at.xMm, units),
        lengthEntry(at.yMm, units),
        GLASS_WORDS.units[units],
      )
  return (
    <div
      ref={box}
      className="glass-small"
      role="img"
      aria-label={GLASS_WORDS.alt(says)}
      onPointerUp={tap}
    >
      <svg viewBox={`0 0 ${WIDTH} ${height}`} width="100%" aria-hidden="true">
        <rect className="glass-pane" x={1} y={1} width={WIDTH - 2} height={height - 2} />
        <path
          className="glass-middle"
          d={`M${WIDTH / 2 - 6} ${height / 2}h12M${WIDTH / 2} ${height / 2 - 6}v12`}
        />
        <circle className="glass-here" cx={x} cy={y} r={11} />
      </svg>
    </div>
  )
}

const WIDTH = 300
