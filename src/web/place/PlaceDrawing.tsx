import { type ReactNode, useId, useMemo } from 'react'
import type { LaidFilm, Place } from '../../api/place.ts'
import { checkPlaced } from '../../core/placement/check.ts'
import { dimensionLines } from '../../core/placement/dimensions.ts'
import { lightContours } from '../../workflow/placeContours.ts'
import { type Laying, problemOf } from '../../workflow/placeProblem.ts'
import { useUnits } from '../shop.tsx'
import { useWidth } from '../signs/useWidth.ts'
import { rulerText } from '../tests/lengths.ts'
import { DimensionLine, isCovered } from './DimensionLine.tsx'
import './drawing.css'
import { FilmPiece } from './FilmPiece.tsx'
import type { PlaceEvent, PlaceState } from './placeState.ts'
import { PLACE_WORDS } from './placeWords.ts'

/** The drawing is no higher than this share of its width, or so many px. */
const MOST_HIGH_PX = 660
/** With more films only those of the picked one are drawn. */
const ALL_DIMENSIONS = 3

/** The screen with its films seen from above the glass, true to scale; films are moved in it. */
export function PlaceDrawing({
  place,
  laying,
  wanted,
  state,
  tell,
}: Readonly<{
  place: Place
  laying: Laying
  wanted: readonly LaidFilm[]
  state: PlaceState
  tell: (event: PlaceEvent) => void
}>): ReactNode {
  const units = useUnits()
  const [box, widthPx] = useWidth<HTMLDivElement>(350)
  const hatch = useId()
  const mesh = useId()
  const problem = useMemo(() => problemOf(laying), [laying])
  const contours = useMemo(() => lightContours(laying), [laying])
  const { screen } = place
  if (screen === null) return null
  const { outside, insideWidthMm, insideHeightMm } = screen
  const scale = Math.min(widthPx / outside.widthMm, MOST_HIGH_PX / outside.heightMm)
  const px = (mm: number): number => mm * scale
  const [width, height] = [px(outside.widthMm), px(outside.heightMm)]
  const [inWide, inHigh] = [px(insideWidthMm), px(insideHeightMm)]
  const [barX, barY] = [(width - inWide) / 2, (height - inHigh) / 2]
  const broken = new Set(
    checkPlaced(problem, wanted)
      .rules.filter(({ shortMm }) => shortMm > 1e-6)
      .flatMap(({ films }) => films),
  )
  const lines = dimensionLines(problem, wanted).filter(
    ({ film }) => place.films.length <= ALL_DIMENSIONS || film === state.picked,
  )
  return (
    <div ref={box} className="place-drawing">
      <svg
        className="place-svg"
        viewBox={`0 0 ${width} ${height}`}
        width={width}
        height={height}
        role="group"
        aria-label={PLACE_WORDS.drawing(screen.name)}
      >
        <defs>
          <pattern id={mesh} width={6} height={6} patternUnits="userSpaceOnUse">
            <rect className="place-mesh" width={6} height={6} />
            <path className="place-thread" d="M3 0V6M0 3H6" />
          </pattern>
          <pattern
            id={hatch}
            width={7}
            height={7}
            patternUnits="userSpaceOnUse"
            patternTransform="rotate(30)"
          >
            <path className="place-hatch" d="M0 0V7" />
          </pattern>
        </defs>
        <rect className="place-wood" width={width} height={height} />
        <path
          className="place-line"
          d={`M0 0L${barX} ${barY}M${width} 0L${width - barX} ${barY}M${width} ${height}L${width - barX} ${height - barY}M0 ${height}L${barX} ${height - barY}`}
        />
        <rect className="place-edge" width={width} height={height} />
        <text className="place-text" x={width / 2} y={barY / 2 + 5} textAnchor="middle">
          {PLACE_WORDS.screenName(
            screen.name,
            rulerText(insideWidthMm, units),
            rulerText(insideHeightMm, units),
          )}
        </text>
        <text className="place-text" x={width / 2} y={height - barY / 2 + 5} textAnchor="middle">
          {PLACE_WORDS.towardsYou}
        </text>
        <g transform={`translate(${barX} ${barY})`}>
          <svg width={inWide} height={inHigh} overflow="hidden">
            <rect width={inWide} height={inHigh} fill={`url(#${mesh})`} />
            {contours.map(({ share, pieces, label }) => (
              <g key={share} aria-hidden="true">
                <path
                  className="place-contour"
                  d={pieces
                    .map(
                      ([a, b]) =>
                        `M${px(a.xMm).toFixed(1)} ${px(a.yMm).toFixed(1)}L${px(b.xMm).toFixed(1)} ${px(b.yMm).toFixed(1)}`,
                    )
                    .join('')}
                />
                <ShareFigure
                  share={share}
                  x={Math.min(inWide - 30, Math.max(30, px(label.xMm)))}
                  y={Math.min(inHigh - 6, px(label.yMm) - 4)}
                  isCovered={(at) => lines.some((line) => isCovered(at, { line, scale, units }))}
                />
              </g>
            ))}
            {problem.keepOut.map((kept, at) => (
              <g key={at}>
                <rect
                  className="place-keep-out"
                  x={px(kept.xMm)}
                  y={px(kept.yMm)}
                  width={px(kept.widthMm)}
                  height={px(kept.heightMm)}
                  fill={`url(#${hatch})`}
                />
                <text
                  className="place-what"
                  x={Math.min(inWide - 4, px(kept.xMm + kept.widthMm))}
                  y={Math.min(inHigh - 6, px(kept.yMm + kept.heightMm) + 17)}
                  textAnchor="end"
                >
                  {whatLies(place, laying)[at] ?? ''}
                </text>
              </g>
            ))}
          </svg>
          <rect className="place-edge" width={inWide} height={inHigh} />
          {wanted.map((laid, at) => {
            const film = place.films[at]
            return film === undefined ? null : (
              <FilmPiece
                key={film.id}
                film={film}
                laid={laid}
                scale={scale}
                isPicked={state.which === 'wanted' && state.picked === at}
                isBroken={broken.has(at)}
                isNow={false}
                onPick={() => tell({ kind: 'pick', film: at, which: 'wanted' })}
                tell={tell}
              />
            )
          })}
          {state.now?.map((laid, at) => {
            const film = place.films[at]
            return film === undefined ? null : (
              <FilmPiece
                key={`${film.id} now`}
                film={film}
                laid={laid}
                scale={scale}
                isPicked={state.which === 'now' && state.picked === at}
                isBroken={false}
                isNow
                onPick={() => tell({ kind: 'pick', film: at, which: 'now' })}
                tell={tell}
              />
            )
          })}
          <g aria-hidden="true">
            {lines.map((line) => (
              <DimensionLine
                key={`${line.film} ${line.side}`}
                line={line}
                scale={scale}
                units={units}
              />
            ))}
          </g>
        </g>
      </svg>
      {contours.length > 0 && <p className="small place-note">{PLACE_WORDS.evenness}</p>}
    </div>
  )
}

const SHARE_PX = 44
/** From the foot of its figures to their middle. */
const SHARE_UP_PX = 5

/** How much light there is; left out where a length stands, which it would be taken for. */
function ShareFigure({
  share,
  x,
  y,
  isCovered: isUnder,
}: Readonly<{
  share: number
  x: number
  y: number
  isCovered: (at: Readonly<{ x: number; y: number; widePx: number }>) => boolean
}>): ReactNode {
  if (isUnder({ x, y: y - SHARE_UP_PX, widePx: SHARE_PX })) return null
  return (
    <text className="place-share" x={x} y={y} textAnchor="middle">
      {`${Math.round(100 * share)} %`}
    </text>
  )
}

/** What the keep-outs inside the frame are, in their order. */
function whatLies({ glass }: Place, laying: Laying): readonly string[] {
  return (glass?.marks ?? []).flatMap((mark) => {
    const alone = { ...laying, glass: laying.glass && { ...laying.glass, marks: [mark] } }
    return problemOf(alone).keepOut.length === 0 ? [] : [mark.what]
  })
}
