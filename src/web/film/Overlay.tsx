import type { ReactNode } from 'react'
import type { Finding } from '../../api/films.ts'
import { Ruler, type Units } from '../signs/Ruler.tsx'
import { type Box, type FilmSize, placeInBox, type Sight } from './viewState.ts'

/** Room for the rulers, CSS pixels. */
export const EDGE = { left: 44, top: 24 } as const

export type Glass = Readonly<{
  /** The film pixel the loupe shows, and how many CSS pixels of the picture it covers. */
  x: number
  y: number
  radiusPx: number
  side: 'left' | 'right'
  /** The loupe's middle in the box. */
  at: Readonly<{ x: number; y: number }>
  loupePx: number
  /** The place lies in the box. */
  isIn: boolean
}>

export type OverlayProps = Readonly<{
  film: FilmSize
  sight: Sight
  box: Box
  units: Units
  findings: readonly Finding[]
  focused: number | null
  glass: Glass | null
}>

/** Rulers, the film's border, wax rings with their numbers and the loupe's line, over the picture. */
export function Overlay(props: OverlayProps): ReactNode {
  const { film, sight, box, focused, glass } = props
  const rings = props.findings.map((finding) => ringOf(finding, { film, sight, box }))
  return (
    <svg
      className="film-overlay"
      width={box.widthPx + EDGE.left}
      height={box.heightPx + EDGE.top}
      viewBox={`${-EDGE.left} ${-EDGE.top} ${box.widthPx + EDGE.left} ${box.heightPx + EDGE.top}`}
      aria-hidden="true"
    >
      <Rulers {...props} />
      <Border film={film} sight={sight} box={box} />
      <svg width={box.widthPx} height={box.heightPx} className="film-rings">
        {rings.map((ring) => (
          <WaxMark key={ring.number} ring={ring} isFocused={ring.number === focused} />
        ))}
        {rings.map((ring) => (
          <WaxNumber key={ring.number} ring={ring} box={box} />
        ))}
      </svg>
      {glass?.isIn === true && <Leader glass={glass} sight={sight} box={box} />}
    </svg>
  )
}

type InView = Pick<OverlayProps, 'film' | 'sight' | 'box'>

/** The film's part of the box. */
function shown({ film, sight, box }: InView) {
  const from = placeInBox({ x: 0, y: 0 }, sight, box)
  const to = placeInBox({ x: film.widthPx, y: film.heightPx }, sight, box)
  const [left, top] = [Math.max(0, from.x), Math.max(0, from.y)]
  return {
    left,
    top,
    width: Math.max(0, Math.min(box.widthPx, to.x) - left),
    height: Math.max(0, Math.min(box.heightPx, to.y) - top),
    from,
  }
}

function Rulers(props: OverlayProps): ReactNode {
  const { film, sight, units } = props
  const { left, top, width, height, from } = shown(props)
  const pxPerMm = (sight.scale * 1000) / film.pixelUm
  const start = (place: number, film: number): number => (place - film) / pxPerMm
  return (
    <>
      <g transform={`translate(${left} ${top - 22})`}>
        <Ruler
          side="top"
          lengthPx={width}
          startMm={start(left, from.x)}
          pxPerMm={pxPerMm}
          units={units}
        />
      </g>
      <g transform={`translate(${left - 42} ${top})`}>
        <Ruler
          side="left"
          lengthPx={height}
          startMm={start(top, from.y)}
          pxPerMm={pxPerMm}
          units={units}
        />
      </g>
    </>
  )
}

function Border(props: InView): ReactNode {
  const { left, top, width, height } = shown(props)
  return <rect className="film-border" x={left} y={top} width={width} height={height} />
}

type Ring = Readonly<{ number: number; x: number; y: number; radiusX: number; radiusY: number }>

const LEAST_RADIUS_PX = 17

/** Round the whole passage, and never too small to be seen. */
function ringOf({ number, reach, xMm, yMm }: Finding, { film, sight, box }: InView): Ring {
  const pxPerMm = 1000 / film.pixelUm
  const { leftMm, rightMm, topMm, bottomMm } = reach ?? {
    leftMm: xMm,
    rightMm: xMm,
    topMm: yMm,
    bottomMm: yMm,
  }
  const middle = { x: ((leftMm + rightMm) / 2) * pxPerMm, y: ((topMm + bottomMm) / 2) * pxPerMm }
  const half = 0.575 * sight.scale * pxPerMm
  return {
    number,
    ...placeInBox(middle, sight, box),
    radiusX: Math.max(LEAST_RADIUS_PX, (rightMm - leftMm) * half),
    radiusY: Math.max(LEAST_RADIUS_PX, (bottomMm - topMm) * half),
  }
}

/** A ring as a wax pencil draws it, twice round. */
function WaxMark({ ring, isFocused }: Readonly<{ ring: Ring; isFocused: boolean }>): ReactNode {
  const { x, y, radiusX, radiusY } = ring
  return (
    <g className={isFocused ? 'wax wax-focused' : 'wax'}>
      <ellipse cx={x} cy={y} rx={radiusX} ry={radiusY} transform={`rotate(-4 ${x} ${y})`} />
      <ellipse
        className="wax-again"
        cx={x + 1.5}
        cy={y - 1}
        rx={radiusX * 0.985 + 1}
        ry={radiusY * 0.97}
        transform={`rotate(3 ${x} ${y})`}
      />
    </g>
  )
}

/** The ring's number at its rim, inside the picture; gone with its ring. */
function WaxNumber({ ring, box }: Readonly<{ ring: Ring; box: Box }>): ReactNode {
  const isOut =
    ring.x + ring.radiusX < 0 ||
    ring.y + ring.radiusY < 0 ||
    ring.x - ring.radiusX > box.widthPx ||
    ring.y - ring.radiusY > box.heightPx
  if (isOut) return null
  const x = inside(ring.x - 0.8 * ring.radiusX - 7, box.widthPx)
  const y = inside(ring.y - 0.7 * ring.radiusY - 7, box.heightPx)
  return (
    <g className="wax">
      <circle cx={x} cy={y} r={13} />
      <text x={x} y={y + 5.5} textAnchor="middle">
        {ring.number}
      </text>
    </g>
  )
}

function inside(place: number, most: number): number {
  return Math.min(most - 16, Math.max(16, place))
}

/** From the place to the loupe that shows it. */
function Leader({
  glass,
  sight,
  box,
}: Readonly<{ glass: Glass; sight: Sight; box: Box }>): ReactNode {
  const place = placeInBox(glass, sight, box)
  const [dx, dy] = [glass.at.x - place.x, glass.at.y - place.y]
  const away = Math.hypot(dx, dy)
  const isApart = away > glass.radiusPx + glass.loupePx / 2
  const edge = glass.radiusPx / Math.max(1, away)
  const rim = 1 - glass.loupePx / 2 / Math.max(1, away)
  return (
    <g className="film-leader">
      <circle cx={place.x} cy={place.y} r={glass.radiusPx} />
      {isApart && (
        <path
          d={`M${place.x + dx * edge} ${place.y + dy * edge}L${place.x + dx * rim} ${place.y + dy * rim}`}
        />
      )}
    </g>
  )
}
