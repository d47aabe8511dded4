import { type ReactNode, useMemo, useState } from 'react'
import type { LaidFilm, ScreensOnGlass } from '../../api/place.ts'
import { sheetOf } from '../../core/placement/boxes.ts'
import { checkPlaced } from '../../core/placement/check.ts'
import { screensOnGlassProblem } from '../../core/placement/onGlass.ts'
import { useUnits } from '../shop.tsx'
import { SecondAct } from '../signs/Button.tsx'
import { useWidth } from '../signs/useWidth.ts'
import { rulerText } from '../tests/lengths.ts'
import './drawing.css'
import { firstState, type Ground, nextPlace, type PlaceEvent, wantedOf } from './placeState.ts'
import { PLACE_WORDS } from './placeWords.ts'
import { shortText } from './shortText.ts'
import { useMoving } from './useMoving.ts'

const KEPT_MM = 1e-6

/** The glass from above, true to scale; screens are moved on it, and the rules answer at once. */
export function GlassDrawing({
  told,
  onLaid,
}: Readonly<{ told: ScreensOnGlass; onLaid: (laid: LaidFilm) => void }>): ReactNode {
  const words = PLACE_WORDS.screens
  const units = useUnits()
  const [box, widthPx] = useWidth<HTMLDivElement>(350)
  const { glass, screens, best } = told
  const scale = widthPx / glass.widthMm
  const ground: Ground = useMemo(
    () => ({
      frame: { insideWidthMm: glass.widthMm, insideHeightMm: glass.heightMm },
      films: screens.map(({ outside }) => outside),
      best: best.screens.map(({ screen, ...laid }) => ({ film: screen, ...laid })),
      kept: null,
    }),
    [glass, screens, best],
  )
  const [state, setState] = useState(() => firstState(ground))
  const tell = (event: PlaceEvent): void => setState((before) => nextPlace(before, event, ground))
  const wanted = wantedOf(state, ground)
  const check = useMemo(
    () => checkPlaced(screensOnGlassProblem(told.glass, told.screens), wanted),
    [told, wanted],
  )
  const broken = new Set(
    check.rules.filter(({ shortMm }) => shortMm > KEPT_MM).flatMap(({ films }) => films),
  )
  const isBest = state.wanted === 'best'
  const [first] = wanted
  const [firstScreen] = screens
  const picked = screens[state.picked]
  return (
    <>
      <p aria-live="polite">
        {isBest
          ? best.verdict === 'fits'
            ? words.fits
            : words.noFit(shortText(best.worst.shortMm, units))
          : check.verdict === 'fits'
            ? words.moved
            : (check.worst.rule === 'clearance to the frame' ? words.over : words.onEachOther)(
                shortText(check.worst.shortMm, units),
              )}
      </p>
      <div ref={box}>
        <svg
          className="place-svg"
          viewBox={`0 0 ${widthPx} ${glass.heightMm * scale}`}
          width="100%"
          role="group"
          aria-label={words.drawing}
        >
          <rect className="place-glass" width={widthPx} height={glass.heightMm * scale} />
          {glass.marks.map(({ id, xMm, yMm, widthMm, heightMm }) => (
            <rect
              key={id}
              className="place-keep-out"
              fill="none"
              x={xMm * scale}
              y={yMm * scale}
              width={widthMm * scale}
              height={heightMm * scale}
            />
          ))}
          {wanted.map((laid, at) => {
            const screen = screens[at]
            return screen === undefined ? null : (
              <ScreenPiece
                key={screen.id}
                screen={screen}
                laid={laid}
                scale={scale}
                isPicked={state.picked === at}
                isBroken={broken.has(at)}
                onPick={() => tell({ kind: 'pick', film: at, which: 'wanted' })}
                tell={tell}
              />
            )
          })}
        </svg>
      </div>
      <p className="small place-note">{words.front}</p>
      <p className="small">{words.handling}</p>
      <div className="place-acts">
        {picked !== undefined && (
          <SecondAct onPress={() => tell({ kind: 'turn' })}>
            {`${PLACE_WORDS.turn}: ${picked.name}`}
          </SecondAct>
        )}
        {!isBest && (
          <SecondAct onPress={() => tell({ kind: 'best' })}>{PLACE_WORDS.best}</SecondAct>
        )}
        {first !== undefined && firstScreen !== undefined && check.verdict === 'fits' && (
          <SecondAct onPress={() => onLaid(first)}>{words.lay(firstScreen.name)}</SecondAct>
        )}
      </div>
      {wanted.map(({ film, xMm, yMm, turned }) => (
        <p key={film}>
          {words.place(
            screens.find(({ id }) => id === film)?.name ?? '',
            rulerText(xMm, units),
            rulerText(yMm, units),
            turned,
          )}
        </p>
      ))}
      {screens.some(({ outside }) => !outside.measured) && <p className="small">{words.usual}</p>}
    </>
  )
}

function ScreenPiece({
  screen,
  laid,
  scale,
  isPicked,
  isBroken,
  onPick,
  tell,
}: Readonly<{
  screen: ScreensOnGlass['screens'][number]
  laid: LaidFilm
  scale: number
  isPicked: boolean
  isBroken: boolean
  onPick: () => void
  tell: (event: PlaceEvent) => void
}>): ReactNode {
  const units = useUnits()
  const moving = useMoving({ laid, scale, isPicked, onPick, tell })
  const lies = sheetOf(screen.outside, laid)
  const [width, height] = [lies.widthMm * scale, lies.heightMm * scale]
  const { insideWidthMm, insideHeightMm } = screen
  const inside = laid.turned
    ? { wide: insideHeightMm * scale, high: insideWidthMm * scale }
    : { wide: insideWidthMm * scale, high: insideHeightMm * scale }
  const name = ['place-film', isPicked && 'place-picked', isBroken && 'place-broken']
  return (
    <g
      className={name.filter((part) => part !== false).join(' ')}
      transform={`translate(${lies.xMm * scale} ${lies.yMm * scale})`}
      role="button"
      tabIndex={0}
      aria-pressed={isPicked}
      aria-label={PLACE_WORDS.screens.screenOn(
        screen.name,
        rulerText(laid.xMm, units),
        rulerText(laid.yMm, units),
      )}
      {...moving}
    >
      <rect className="place-frame" width={width} height={height} />
      <rect
        className="place-mesh"
        x={(width - inside.wide) / 2}
        y={(height - inside.high) / 2}
        width={inside.wide}
        height={inside.high}
      />
      <text className="place-figure" x={width / 2} y={height / 2 + 5} textAnchor="middle">
        {screen.name}
      </text>
      <rect className="place-screen-outline" width={width} height={height} />
    </g>
  )
}
