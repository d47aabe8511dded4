import { type ReactNode, useMemo, useState } from 'react'
import { PATHS } from '../../api/paths.ts'
import type { LaidFilm, NewPlacement, Place, PlacementKept } from '../../api/place.ts'
import { checkPlaced } from '../../core/placement/check.ts'
import { type Laying, lightOn, problemOf } from '../../workflow/placeProblem.ts'
import { Button, SecondAct } from '../signs/Button.tsx'
import { useSending } from '../tests/useSending.ts'
import { Clearances } from './Clearances.tsx'
import { Moves } from './Moves.tsx'
import { PlaceDrawing } from './PlaceDrawing.tsx'
import { PlaceFields } from './PlaceFields.tsx'
import { PlacePapers } from './PlacePapers.tsx'
import type { PlaceKey } from './placeQuery.ts'
import {
  firstState,
  type Ground,
  movesOf,
  nextPlace,
  type PlaceEvent,
  wantedOf,
} from './placeState.ts'
import { filmName, PLACE_WORDS } from './placeWords.ts'
import { Rules } from './Rules.tsx'
import { Verdict } from './Verdict.tsx'

/** Films on a screen: the drawing, the way there, and how the rules answer. */
export function PlaceOnScreen({
  place,
  best,
  screen,
  head,
  onClearance,
  onKept,
  more,
}: Readonly<{
  place: Place
  best: NonNullable<Place['best']>
  screen: NonNullable<Place['screen']>
  head: ReactNode
  onClearance: (changes: Partial<Record<PlaceKey, string>>) => void
  onKept: () => void
  more: ReactNode
}>): ReactNode {
  const { films, kept } = place
  const ground: Ground = useMemo(
    () => ({ frame: screen, films, best: best.films, kept: kept?.films ?? null }),
    [screen, films, best, kept],
  )
  const laying: Laying = useMemo(
    () => ({
      frame: screen,
      outside: screen.outside,
      films,
      clearance: place.clearance,
      glass: place.glass,
      onGlass: place.onGlass,
    }),
    [screen, films, place],
  )
  const [state, setState] = useState(() => firstState(ground))
  const tell = (event: PlaceEvent): void => setState((before) => nextPlace(before, event, ground))
  const wanted = wantedOf(state, ground)
  const check = useMemo(() => checkPlaced(problemOf(laying), wanted), [laying, wanted])
  const light = useMemo(() => lightOn(laying, wanted), [laying, wanted])
  const sending = useSending<PlacementKept>()
  const keep = async (laid: boolean): Promise<void> => {
    const body: NewPlacement = {
      screen: screen.id,
      films: [...wanted],
      clearance: place.clearance,
      ...(place.onGlass === null ? {} : { onGlass: place.onGlass }),
      laid,
    }
    const answer = await sending.send({ path: PATHS.place, method: 'POST', body })
    if (answer === null) return
    // as it was kept, as soon as the page knows it
    setState((before) => ({ ...before, now: null, which: 'wanted' }))
    onKept()
  }
  const picked = films[state.picked]
  const isBest = isSame(wanted, best.films)
  const isKept = kept !== null && isSame(wanted, kept.films)
  return (
    <>
      <div className="place-head">
        {head}
        <Verdict
          check={check}
          best={best}
          isBest={isBest}
          isMarked={place.onGlass !== null && (place.glass?.marks.length ?? 0) > 0}
        />
      </div>
      <PlaceDrawing place={place} laying={laying} wanted={wanted} state={state} tell={tell} />
      <div className="place-words">
        <Moves
          films={films}
          from={state.now ?? (isBest ? null : wanted)}
          to={state.now === null ? best.films : wanted}
          isNow={state.now !== null}
        />
        <Rules check={check} light={light} films={films} />
        {kept !== null && isKept && state.now === null && (
          <p className="small">
            {kept.laidOn === null
              ? PLACE_WORDS.planned(kept.keptOn)
              : PLACE_WORDS.kept(kept.laidOn)}
          </p>
        )}
        {sending.message !== null && (
          <p role="alert" className="entry-wrong">
            {sending.message}
          </p>
        )}
        <p className="small">{PLACE_WORDS.caution}</p>
        <div className="place-acts">
          <Button onPress={() => void keep(true)} busy={sending.isBusy}>
            {PLACE_WORDS.lies}
          </Button>
          <SecondAct onPress={() => void keep(false)}>{PLACE_WORDS.keepPlan}</SecondAct>
        </div>
        <PlacePapers place={place} laid={wanted} />
        {picked !== undefined && (
          <>
            <PlaceFields
              key={`${picked.id} ${state.which}`}
              name={filmName(picked)}
              laid={(state.which === 'now' ? state.now : wanted)?.[state.picked]}
              isNow={state.which === 'now'}
              tell={tell}
            />
            <div className="place-acts">
              <SecondAct onPress={() => tell({ kind: 'turn' })}>{PLACE_WORDS.turn}</SecondAct>
              {!isBest && (
                <SecondAct onPress={() => tell({ kind: 'best' })}>{PLACE_WORDS.best}</SecondAct>
              )}
              {kept !== null && !isKept && (
                <SecondAct onPress={() => tell({ kind: 'kept' })}>{PLACE_WORDS.asKept}</SecondAct>
              )}
              {state.now === null && (
                <SecondAct onPress={() => tell({ kind: 'elsewhere' })}>
                  {PLACE_WORDS.elsewhere}
                </SecondAct>
              )}
            </div>
          </>
        )}
        <Clearances clearance={place.clearance} films={films.length} onChange={onClearance} />
        {more}
      </div>
    </>
  )
}

function isSame(one: readonly LaidFilm[], other: readonly LaidFilm[]): boolean {
  const sides = { widthMm: 1, heightMm: 1 }
  return one.every((film) => {
    const same = other.find((each) => each.film === film.film)
    return same !== undefined && movesOf(film, same, sides).length === 0
  })
}
