import { type ReactNode, useEffect, useMemo, useReducer, useRef, useState } from 'react'
import type { FilmForecast, Finding, Pyramid } from '../../api/films.ts'
import type { SurfaceDoses } from '../../core/emulsion/doses.ts'
import { lu } from '../../core/units/quantity.ts'
import { filmSource, levelOfView } from '../../workflow/filmForecastView.ts'
import type { Units } from '../signs/Ruler.tsx'
import { useWidth } from '../signs/useWidth.ts'
import { ONE_COLUMN, useMedia } from '../useMedia.ts'
import { useFilmPalette } from './filmInks.ts'
import { filmTiles } from './filmTiles.ts'
import { FILM_WORDS } from './filmWords.ts'
import { lengthText, tens } from './findingSays.ts'
import { Loupe } from './Loupe.tsx'
import { EDGE, type Glass, Overlay } from './Overlay.tsx'
import { type Look, useCanvasPicture } from './useCanvasPicture.ts'
import { useGestures } from './useGestures.ts'
import {
  type Box,
  type FilmSize,
  filmAt,
  isSame,
  kept,
  placeInBox,
  type Sight,
  viewOf,
  wholeFilm,
  ZOOM_STEP,
  zoomed,
} from './viewState.ts'

export type FilmPictureProps = Readonly<{
  forecast: FilmForecast
  pyramid: Pyramid
  film: FilmSize
  findings: readonly Finding[]
  look: Look
  doseLu: number
  units: Units
  /** What the picture says, in a sentence. */
  says: string
  /** The finding that is looked at in the list. */
  focused: number | null
}>

/** The film at true proportions: tiles, rulers, rings and a loupe; one comes near as to a light table. */
export function FilmPicture(props: FilmPictureProps): ReactNode {
  const { forecast, pyramid, film, look, doseLu, units, focused, findings } = props
  const [holder, columnPx] = useWidth<HTMLDivElement>(360)
  const stage = useRef<HTMLDivElement>(null)
  const oneColumn = useMedia(ONE_COLUMN)
  const box = useBox(film, columnPx, oneColumn)
  const [wish, setWish] = useState<Sight | null>(null)
  const sight = useMemo(() => kept(wish ?? wholeFilm(film, box), film, box), [wish, film, box])
  const [hover, setHover] = useState<Readonly<{ x: number; y: number }> | null>(null)
  const [tilesCome, tileCame] = useReducer((count: number) => count + 1, 0)
  const tiles = useMemo(() => filmTiles(forecast.id, onceAFrame(tileCame)), [forecast.id])
  useEffect(() => () => tiles.stop(), [tiles])
  const palette = useFilmPalette()
  const { finest } = pyramid
  const levels = pyramid.levels.length
  const source = useMemo(
    () => filmSource(film, { levels, tileAt: tiles.at }),
    [film, levels, tiles],
  )
  const doses = useMemo<SurfaceDoses>(
    () => ({
      gelDoseLu: lu(forecast.gelDoseLu),
      holdDoseLu: lu(forecast.holdDoseLu),
      throughDoseLu: lu(forecast.throughDoseLu),
    }),
    [forecast.gelDoseLu, forecast.holdDoseLu, forecast.throughDoseLu],
  )
  const view = useMemo(() => viewOf(sight, box, devicePixelRatio), [sight, box])
  const shown = { source, finest, tiles, tilesCome, look, doses, doseLu, palette }
  const canvas = useCanvasPicture({ ...shown, who: 'stage', view })
  const onSight = useMemo(
    () =>
      (next: (sight: Sight) => Sight): void =>
        setWish((now) => next(now ?? wholeFilm(film, box))),
    [film, box],
  )
  const gestures = useGestures(stage, { film, box, sight, onSight, onHover: setHover })
  const glass = useGlass({ film, sight, box, hover, focused, findings, oneColumn })
  const middle = { x: box.widthPx / 2, y: box.heightPx / 2 }
  const isWhole = isSame(sight, kept(wholeFilm(film, box), film, box))
  return (
    <div ref={holder}>
      <div className="film-holder">
        <Overlay {...{ film, sight, box, units, findings, focused }} glass={glass} />
        <div
          ref={stage}
          className={isWhole ? 'film-stage film-stage-whole' : 'film-stage'}
          role="group"
          aria-label={FILM_WORDS.stage}
          tabIndex={0}
          {...gestures}
        >
          <canvas ref={canvas} role="img" aria-label={props.says} />
        </div>
        {glass !== null && (
          <Loupe
            {...shown}
            x={glass.x}
            y={glass.y}
            scale={(sight.scale * glass.loupePx) / 2 / glass.radiusPx}
            sizePx={glass.loupePx}
            side={glass.side}
          />
        )}
      </div>
      <div className="film-tools">
        <button
          type="button"
          onClick={() =>
            onSight((now) => zoomed(now, { factor: ZOOM_STEP, at: middle }, film, box))
          }
        >
          <span aria-hidden="true">+</span>
          <span className="unseen">{FILM_WORDS.nearer}</span>
        </button>
        <button
          type="button"
          onClick={() =>
            onSight((now) => zoomed(now, { factor: 1 / ZOOM_STEP, at: middle }, film, box))
          }
        >
          <span aria-hidden="true">−</span>
          <span className="unseen">{FILM_WORDS.back}</span>
        </button>
        <button type="button" className="film-tools-word" onClick={() => setWish(null)}>
          <span>{FILM_WORDS.whole}</span>
        </button>
        <p className="soft">
          {FILM_WORDS.howNear(
            lengthText(
              (Math.min(film.widthPx, box.widthPx / sight.scale) * film.pixelUm) / 1000,
              units,
            ),
          )}
          {levelOfView(view, levels) < finest && FILM_WORDS.finer(tens(forecast.progressShare))}
        </p>
      </div>
    </div>
  )
}

/** However often it is asked in a frame, it is done once in the next. */
function onceAFrame(act: () => void): () => void {
  let isAsked = false
  return () => {
    if (isAsked) return
    isAsked = true
    requestAnimationFrame(() => {
      isAsked = false
      act()
    })
  }
}

/** Height of the head, the words above and the cloth below on a laptop. */
const AROUND_PX = 330

/** As wide as its column, and as high as the film asks and the window lets. */
function useBox(film: FilmSize, columnPx: number, oneColumn: boolean): Box {
  const windowPx = useWindowHeight()
  return useMemo(() => {
    const widthPx = Math.max(120, columnPx - EDGE.left)
    const most = oneColumn ? 0.52 * windowPx : Math.max(420, windowPx - AROUND_PX)
    const asked = (widthPx * film.heightPx) / film.widthPx
    return { widthPx, heightPx: Math.round(Math.max(160, Math.min(asked, most))) }
  }, [film, columnPx, oneColumn, windowPx])
}

function useWindowHeight(): number {
  const [height, setHeight] = useState(() => innerHeight)
  useEffect(() => {
    const measure = (): void => setHeight(innerHeight)
    addEventListener('resize', measure)
    return () => removeEventListener('resize', measure)
  }, [])
  return height
}

/** How many times larger than the picture the loupe shows. */
const LOUPE_TIMES = 4.5
const LOUPE_PX = { large: 172, small: 124 } as const

/** What the loupe looks at: the finding in the list, else the place under the mouse. */
function useGlass({
  film,
  sight,
  box,
  hover,
  focused,
  findings,
  oneColumn,
}: Readonly<{
  film: FilmSize
  sight: Sight
  box: Box
  hover: Readonly<{ x: number; y: number }> | null
  focused: number | null
  findings: readonly Finding[]
  oneColumn: boolean
}>): Glass | null {
  const finding = findings.find(({ number }) => number === focused)
  const pxPerMm = 1000 / film.pixelUm
  const target =
    hover !== null
      ? filmAt(hover, sight, box)
      : finding === undefined
        ? null
        : { x: finding.xMm * pxPerMm, y: finding.yMm * pxPerMm }
  if (target === null) return null
  const loupePx = oneColumn ? LOUPE_PX.small : LOUPE_PX.large
  const place = placeInBox(target, sight, box)
  const isIn = place.x >= 0 && place.y >= 0 && place.x <= box.widthPx && place.y <= box.heightPx
  const isOnFilm =
    target.x >= 0 && target.y >= 0 && target.x <= film.widthPx && target.y <= film.heightPx
  if (!isOnFilm || (!isIn && hover !== null)) return null
  // in the upper corner on the place's own side, unless the place lies under it there
  const isLeft = place.x < box.widthPx / 2
  const fromSide = isLeft ? place.x : box.widthPx - place.x
  const isUnder = fromSide < 1.3 * loupePx && place.y < 1.3 * loupePx
  const side = isLeft === isUnder ? 'right' : 'left'
  const at = {
    x: side === 'left' ? loupePx / 2 - 30 : box.widthPx - loupePx / 2 + 8,
    y: loupePx / 2 - 34,
  }
  return { ...target, radiusPx: loupePx / 2 / LOUPE_TIMES, side, at, loupePx, isIn }
}
