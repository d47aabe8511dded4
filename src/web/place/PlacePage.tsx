import { type ReactNode, useEffect, useMemo } from 'react'
import { PATHS } from '../../api/paths.ts'
import { type Place, STILL_READ } from '../../api/place.ts'
import { Standing } from '../frame/Standing.tsx'
import { ROUTES, useWay } from '../router.tsx'
import { Blank } from '../signs/Blank.tsx'
import '../tests/entry.css'
import { useAsked } from '../useAsked.ts'
import { GlassMarks } from './GlassMarks.tsx'
import './place.css'
import { LaidScreens, ScreensToChoose, WaitingFilms } from './PlaceOffers.tsx'
import { PlaceOnScreen } from './PlaceOnScreen.tsx'
import { type PlaceKey, withPlace } from './placeQuery.ts'
import { PLACE_WORDS } from './placeWords.ts'
import { ScreensOnGlass } from './ScreensOnGlass.tsx'

const AGAIN_MS = 2000
/** Another screen or glass: it lies in the middle again. */
const NOWHERE = { screenXMm: '', screenYMm: '', screenTurned: '' }

/** Where films lie on a screen and its glass. */
export function PlacePage(): ReactNode {
  const { search, go } = useWay()
  const [asked, askAgain] = useAsked<Place>(
    useMemo(() => ({ path: withPlace(PATHS.place, search, {}) }), [search]),
  )
  const place = asked.answer
  const isReading = place !== null && place.waiting.some(({ why }) => why === STILL_READ)
  useEffect(() => {
    if (!isReading) return undefined
    const timer = setTimeout(askAgain, AGAIN_MS)
    return () => clearTimeout(timer)
  }, [isReading, askAgain, place])
  const change = (changes: Partial<Record<PlaceKey, string>>): void =>
    go(withPlace(ROUTES.place, search, changes), 'replace')
  const head = (
    <>
      <h1>{PLACE_WORDS.title}</h1>
      {place !== null && <Sentence place={place} onChange={change} />}
      <Standing asked={asked} working={PLACE_WORDS.fetching} onAgain={askAgain} />
      {place?.waiting.map(({ id, name, why }) => (
        <p key={id}>{PLACE_WORDS.waiting(name, why)}</p>
      ))}
    </>
  )
  if (place === null || place.screen === null || place.best === null) {
    return (
      <div className="place place-empty">
        <div className="place-head">
          {head}
          {place !== null && place.waiting.length === 0 && (
            <p>{place.films.length === 0 ? PLACE_WORDS.none : PLACE_WORDS.noneScreen}</p>
          )}
        </div>
        {place !== null && place.screen === null && place.films.length > 0 && (
          <ScreensToChoose screens={place.choices.screens} search={search} />
        )}
        {place !== null && place.offers !== null && (
          <>
            <WaitingFilms offers={place.offers} search={search} />
            <div className="place-words">
              <LaidScreens offers={place.offers} search={search} />
              <GlassMarks key={place.glass?.unit.id ?? ''} place={place} onChanged={askAgain} />
              <ScreensOnGlass place={place} onChange={change} />
            </div>
          </>
        )}
      </div>
    )
  }
  return (
    <div className="place" aria-busy={asked.now === 'working'}>
      <PlaceOnScreen
        key={`${place.screen.id} ${place.films.map(({ id }) => id).join(' ')}`}
        place={place}
        best={place.best}
        screen={place.screen}
        head={head}
        onClearance={change}
        onKept={askAgain}
        more={
          <>
            <GlassMarks key={place.glass?.unit.id ?? ''} place={place} onChanged={askAgain} />
            <ScreensOnGlass place={place} onChange={change} />
          </>
        }
      />
    </div>
  )
}

/** Which films, on which screen, under which lamp. */
function Sentence({
  place,
  onChange,
}: Readonly<{
  place: Place
  onChange: (changes: Partial<Record<PlaceKey, string>>) => void
}>): ReactNode {
  const words = PLACE_WORDS.lead
  const { screens, films, units } = place.choices
  const chosen = [...place.films, ...place.waiting].map(({ id }) => id)
  const put = (at: number, id: string): void => {
    const changed = [...chosen.slice(0, at), id, ...chosen.slice(at + 1)].filter(
      (each) => each !== '',
    )
    onChange({ films: [...new Set(changed)].join(','), ticket: '' })
  }
  return (
    <p className="sentence">
      {[...chosen, ''].map((id, at) => (
        <span key={id}>
          {at > 0 && words.and}
          <Blank
            label={words.film(at + 1)}
            value={id}
            choices={films.map((film) => ({ ...film, not: film.not ?? null }))}
            open={at === 0 ? words.aFilm : words.another}
            onChoice={(next) => put(at, next)}
          />
        </span>
      ))}
      {words.onScreen}
      <Blank
        label={words.screen}
        value={place.screen?.id ?? ''}
        choices={screens}
        open={words.noScreen}
        onChoice={(screen) => onChange({ screen, ...NOWHERE })}
      />
      {units.length > 0 && place.glass !== null && (
        <>
          {words.under}
          <Blank
            label={words.unit}
            value={place.glass.unit.id}
            choices={units}
            onChoice={(unit) => onChange({ unit, ...NOWHERE })}
          />
        </>
      )}
      .
    </p>
  )
}
