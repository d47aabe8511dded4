import { type ReactNode, useMemo, useState } from 'react'
import { PATHS } from '../../api/paths.ts'
import type { Place, ScreensOnGlass as Screens } from '../../api/place.ts'
import { asking } from '../ask.ts'
import { Standing } from '../frame/Standing.tsx'
import { Blank } from '../signs/Blank.tsx'
import { SecondAct } from '../signs/Button.tsx'
import { useAsked } from '../useAsked.ts'
import { GlassDrawing } from './GlassDrawing.tsx'
import type { PlaceKey } from './placeQuery.ts'
import { PLACE_WORDS } from './placeWords.ts'

/** Other screens beside this one, exposed at once: where each lies on the glass. */
export function ScreensOnGlass({
  place,
  onChange,
}: Readonly<{
  place: Place
  onChange: (changes: Partial<Record<PlaceKey, string>>) => void
}>): ReactNode {
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
          onChange={onChange}
        />
      )}
    </div>
  )
}

function Chosen({
  first,
  unit,
  choices,
  onChange,
}: Readonly<{
  first: string
  unit: string
  choices: Place['choices']['screens']
  onChange: (changes: Partial<Record<PlaceKey, string>>) => void
}>): ReactNode {
  const words = PLACE_WORDS.screens
  const [others, setOthers] = useState<readonly string[]>([])
  const chosen = [first, ...others]
  const [asked, askAgain] = useAsked<Screens>(
    useMemo(() => {
      const search = new URLSearchParams({ unit, screens: [first, ...others].join(',') })
      return { path: asking(PATHS.placeScreens, search) }
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
      {asked.answer !== null && (
        <GlassDrawing
          key={asked.answer.screens.map(({ id }) => id).join(' ')}
          told={asked.answer}
          onLaid={({ xMm, yMm, turned }) =>
            onChange({
              screenXMm: String(xMm),
              screenYMm: String(yMm),
              screenTurned: String(turned),
            })
          }
        />
      )}
    </div>
  )
}
