import { type ReactNode, useMemo, useState } from 'react'
import { PATHS } from '../../api/paths.ts'
import type { Place, ScreensOnGlass as Screens } from '../../api/place.ts'
import { sheetOf } from '../../core/placement/boxes.ts'
import { Standing } from '../frame/Standing.tsx'
import { useUnits } from '../shop.tsx'
import { Blank } from '../signs/Blank.tsx'
import { SecondAct } from '../signs/Button.tsx'
import { useWidth } from '../signs/useWidth.ts'
import { rulerText } from '../tests/lengths.ts'
import { useAsked } from '../useAsked.ts'
import { PLACE_WORDS } from './placeWords.ts'
import { shortText } from './shortText.ts'

/** Other screens beside this one, exposed at once: where each lies on the glass. */
export function ScreensOnGlass({ place }: Readonly<{ place: Place }>): ReactNode {
  const words = PLACE_WORDS.screens
  const [isOpen, setOpen] = useState(false)
  if (place.glass === null || place.screen === null) return null
  return (
    <div className="unfolding">
      <SecondAct expanded={isOpen} onPress={() => setOpen(!isOpen)}>
        {words.title}
      </SecondAct>
      {isOpen && (
        <Chosen
          first={place.screen.id}
          unit={place.glass.unit.id}
          choices={place.choices.screens}
        />
      )}
    </div>
  )
}

function Chosen({
  first,
  unit,
  choices,
}: Readonly<{ first: string; unit: string; choices: Place['choices']['screens'] }>): ReactNode {
  const words = PLACE_WORDS.screens
  const [others, setOthers] = useState<readonly string[]>([])
  const chosen = [first, ...others]
  const [asked, askAgain] = useAsked<Screens>(
    useMemo(() => {
      const search = new URLSearchParams({ unit, screens: [first, ...others].join(',') })
      return { path: `${PATHS.placeScreens}?${search.toString()}` }
    }, [unit, first, others]),
  )
  const put = (at: number, id: string): void => {
    const changed = [...others.slice(0, at - 1), id, ...others.slice(at)]
    setOthers([...new Set(changed)].filter((each) => each !== '' && each !== first))
  }
  return (
    <div className="unfolded">
      <p>
        {`${words.lead} `}
        {[...chosen, ''].map((id, at) =>
          at === 0 ? (
            <strong key={id}>{choices.find((each) => each.id === id)?.name ?? ''}</strong>
          ) : (
            <span key={id}>
              {', '}
              <Blank
                label={words.screen(at + 1)}
                value={id}
                choices={choices}
                open={words.another}
                onChoice={(next) => put(at, next)}
              />
            </span>
          ),
        )}
        .
      </p>
      <Standing asked={asked} working={PLACE_WORDS.fetching} onAgain={askAgain} />
      {asked.answer !== null && <OnGlassDrawing told={asked.answer} />}
    </div>
  )
}

function OnGlassDrawing({ told }: Readonly<{ told: Screens }>): ReactNode {
  const words = PLACE_WORDS.screens
  const units = useUnits()
  const [box, widthPx] = useWidth<HTMLDivElement>(350)
  const { glass, screens, best } = told
  const scale = widthPx / glass.widthMm
  const fits = best.verdict === 'fits'
  return (
    <>
      <p aria-live="polite">
        {fits ? words.fits : words.noFit(shortText(best.worst.shortMm, units))}
      </p>
      {fits && (
        <>
          <div ref={box} role="img" aria-label={words.drawing}>
            <svg
              viewBox={`0 0 ${widthPx} ${glass.heightMm * scale}`}
              width="100%"
              aria-hidden="true"
            >
              <rect className="place-glass" width={widthPx} height={glass.heightMm * scale} />
              {best.screens.map((laid, at) => {
                const screen = screens[at]
                if (screen === undefined) return null
                const lies = sheetOf(screen.outside, laid)
                return (
                  <g
                    key={screen.id}
                    transform={`translate(${lies.xMm * scale} ${lies.yMm * scale})`}
                  >
                    <rect
                      className="place-frame"
                      width={lies.widthMm * scale}
                      height={lies.heightMm * scale}
                    />
                    <text
                      className="place-figure"
                      x={(lies.widthMm * scale) / 2}
                      y={(lies.heightMm * scale) / 2 + 5}
                      textAnchor="middle"
                    >
                      {screen.name}
                    </text>
                  </g>
                )
              })}
            </svg>
          </div>
          <p className="small">{words.front}</p>
          {best.screens.map(({ screen, xMm, yMm, turned }) => (
            <p key={screen}>
              {words.place(
                screens.find(({ id }) => id === screen)?.name ?? '',
                rulerText(xMm, units),
                rulerText(yMm, units),
                turned,
              )}
            </p>
          ))}
        </>
      )}
      {screens.some(({ outside }) => !outside.measured) && <p className="small">{words.usual}</p>}
    </>
  )
}
