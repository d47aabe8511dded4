import { type KeyboardEvent, type PointerEvent, type ReactNode, useEffect, useRef } from 'react'
import { WaxRing } from '../signs/WaxRing.tsx'
import './lightTable.css'
import { FilmLoupe, isLow, type LoupeLook } from './FilmLoupe.tsx'
import { FILMS_WORDS, large, percentText } from './filmsWords.ts'
import type { Preview } from './previewAsk.ts'
import { edgeAt, type Rolls, rolledTo } from './rolls.ts'

export type LightTableProps = Readonly<{
  preview: Preview
  isOld: boolean
  rolls: Rolls
  onRolls: (rolls: Rolls) => void
  /** What the table shows, in words. */
  says: string
  focused: number | null
  loupe: LoupeLook
  onLoupe: (at: Readonly<{ xShare: number; yShare: number }>) => void
  /** Of the print, for steps of the loupe. */
  widthMm: number
}>

/** Films as sheets on a light table, rolled back over the proof. */
export function LightTable(props: LightTableProps): ReactNode {
  const { preview, isOld, rolls, onRolls, says, focused, loupe, onLoupe, widthMm } = props
  const canvas = useStages(preview, rolls)
  const proportion = preview.widthPx / preview.heightPx
  const moveTo = ({ currentTarget, clientX, clientY }: PointerEvent): void => {
    const { left, top, width, height } = currentTarget.getBoundingClientRect()
    onLoupe({ xShare: (clientX - left) / width, yShare: (clientY - top) / height })
  }
  return (
    <div className="wood-frame films-table">
      <div className="films-stage" data-old={isOld} data-crowded={isCrowded(preview)}>
        <canvas ref={canvas} role="img" aria-label={says} onPointerDown={moveTo} />
        <Over preview={preview} rolls={rolls} focused={focused} loupe={loupe} />
        {preview.plates.map(({ name }, at) => (
          <Roll
            key={name}
            name={name}
            number={at + 1}
            place={rolls[at] ?? 1}
            proportion={proportion}
            onPlace={(to) => onRolls(rolledTo(rolls, at, to))}
          />
        ))}
        <FilmLoupe
          look={loupe}
          onLook={onLoupe}
          widthMm={widthMm}
          heightMm={widthMm / proportion}
        />
      </div>
    </div>
  )
}

/** So many letters above the sheet, as if each name were as long as the longest, stand apart. */
const MOST_LETTERS = 24

function isCrowded({ plates }: Preview): boolean {
  return plates.length * Math.max(...plates.map(({ name }) => name.length)) > MOST_LETTERS
}

/** Paints each part of the print with as many films as still lie over it. */
function useStages(
  { stages, widthPx, heightPx }: Preview,
  rolls: Rolls,
): React.RefObject<HTMLCanvasElement | null> {
  const canvas = useRef<HTMLCanvasElement>(null)
  useEffect(() => {
    const sheet = canvas.current
    const brush = sheet?.getContext('2d') ?? null
    if (sheet === null || brush === null) return
    sheet.width = widthPx
    sheet.height = heightPx
    const edge = (at: number, height: number): number => {
      const roll = rolls[at]
      if (at < 0) return 0
      return roll === undefined ? widthPx : widthPx * edgeAt(roll, height, widthPx / heightPx)
    }
    stages.forEach((stage, at) => {
      brush.save()
      brush.beginPath()
      brush.moveTo(at === 0 ? 0 : edge(at - 1, 0), 0)
      brush.lineTo(edge(at, 0), 0)
      brush.lineTo(edge(at, 1), heightPx)
      brush.lineTo(at === 0 ? 0 : edge(at - 1, 1), heightPx)
      brush.clip()
      brush.drawImage(stage, 0, 0, widthPx, heightPx)
      brush.restore()
    })
  }, [stages, widthPx, heightPx, rolls])
  return canvas
}

const ROLL_WIDE = 0.045
/** More of them hide the print: the worst, and the one that is looked at. */
export const MOST_RINGS = 3

/** Rolls, rings and the loupe's line, over the picture. */
function Over({
  preview: { widthPx, heightPx, findings },
  rolls,
  focused,
  loupe,
}: Pick<LightTableProps, 'preview' | 'rolls' | 'focused' | 'loupe'>): ReactNode {
  const proportion = widthPx / heightPx
  const rings = findings
    .map((finding, at) => ({ ...finding, at }))
    .filter(({ at }) => at < MOST_RINGS || at === focused)
  return (
    <svg className="films-over" viewBox={`0 0 ${widthPx} ${heightPx}`} aria-hidden="true">
      <defs>
        <linearGradient id="film-roll">
          <stop offset="0" className="roll-rim" />
          <stop offset="0.25" className="roll-light" />
          <stop offset="0.6" className="roll-body" />
          <stop offset="1" className="roll-shade" />
        </linearGradient>
      </defs>
      {rolls.map((roll, at) => {
        const [top, bottom] = [0, 1].map((height) => widthPx * edgeAt(roll, height, proportion))
        const wide = ROLL_WIDE * widthPx
        return (
          <polygon
            key={FILM_KEYS[at]}
            className="film-roll"
            points={`${top},0 ${(top ?? 0) + wide},0 ${(bottom ?? 0) + wide},${heightPx} ${bottom},${heightPx}`}
          />
        )
      })}
      {rings.map(({ box, plate, kind, at }) => (
        <ellipse
          key={`${plate} ${kind}`}
          className={at === focused ? 'films-ring films-ring-focused' : 'films-ring'}
          cx={(box.left + box.right) / 2}
          cy={(box.top + box.bottom) / 2}
          rx={(box.right - box.left) / 2 + 6}
          ry={(box.bottom - box.top) / 2 + 6}
        />
      ))}
      {rings.map(({ box, plate, kind, at }) => (
        <foreignObject key={`${plate} ${kind}`} {...numberAt(box, kind)} width={44} height={44}>
          <WaxRing number={at + 1} size={40} />
        </foreignObject>
      ))}
      <line
        className="films-leader"
        x1={widthPx * loupe.xShare}
        y1={heightPx * loupe.yShare}
        x2={widthPx * 0.08}
        y2={heightPx * (isLow(loupe) ? 0.92 : 0.08)}
      />
    </svg>
  )
}

/** On the ring, to the upper left or right, so that two rings about one place can be told apart. */
function numberAt(
  { left, top, right, bottom }: Preview['findings'][number]['box'],
  kind: Preview['findings'][number]['kind'],
): Readonly<{ x: number; y: number }> {
  const side = kind === 'falls' ? 1 : -1
  const x = (left + right) / 2 + side * 0.8 * ((right - left) / 2 + 6)
  const y = (top + bottom) / 2 - 0.6 * ((bottom - top) / 2 + 6)
  return { x: x - 22, y: y - 22 }
}

const FILM_KEYS = Array.from({ length: 20 }, (_, at) => `film ${at}`)

const STEP = 0.02

/** A film's edge: taken with the pointer or by arrows. */
function Roll({
  name,
  number,
  place,
  proportion,
  onPlace,
}: Readonly<{
  name: string
  number: number
  place: number
  proportion: number
  onPlace: (place: number) => void
}>): ReactNode {
  const drag = ({ currentTarget, pointerId, clientX }: PointerEvent<HTMLElement>): void => {
    if (!currentTarget.hasPointerCapture(pointerId)) return
    const stage = currentTarget.parentElement?.getBoundingClientRect()
    if (stage !== undefined)
      onPlace((clientX - stage.left) / stage.width - edgeAt(0, 0, proportion))
  }
  const step = (event: KeyboardEvent): void => {
    const to = KEYS[event.key]?.(place, event.shiftKey ? 5 * STEP : STEP)
    if (to === undefined) return
    event.preventDefault()
    onPlace(to)
  }
  return (
    <div
      className="film-edge"
      role="slider"
      tabIndex={0}
      aria-label={FILMS_WORDS.roll(name)}
      aria-valuemin={0}
      aria-valuemax={100}
      aria-valuenow={Math.round(100 * place)}
      aria-valuetext={FILMS_WORDS.rolled(percentText(place))}
      ref={(edge) => edge?.style.setProperty('--at', String(edgeAt(place, 0, proportion)))}
      onPointerDown={(event) => event.currentTarget.setPointerCapture(event.pointerId)}
      onPointerMove={drag}
      onKeyDown={step}
    >
      <span>
        {number}
        <span className="film-edge-name"> {large(name)}</span>
      </span>
    </div>
  )
}

const KEYS: Readonly<Record<string, (place: number, step: number) => number>> = {
  ArrowLeft: (place, step) => place - step,
  ArrowDown: (place, step) => place - step,
  ArrowRight: (place, step) => place + step,
  ArrowUp: (place, step) => place + step,
  Home: () => 0,
  End: () => 1,
}
