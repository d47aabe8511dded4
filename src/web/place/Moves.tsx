import type { ReactNode } from 'react'
import type { LaidFilm, Place } from '../../api/place.ts'
import { useUnits } from '../shop.tsx'
import { rulerText } from '../tests/lengths.ts'
import { type Move, movesOf } from './placeState.ts'
import { filmName, PLACE_WORDS } from './placeWords.ts'

const ARROWS: Readonly<Record<Move['way'], string>> = {
  left: 'M38 11C28 12 16 11 5 12M14 4 4 12 15 20',
  right: 'M4 11C14 12 26 11 37 12M28 4 38 12 27 20',
  away: 'M21 22C22 16 21 10 21 3M13 11 21 2 29 11',
  toward: 'M21 2C22 8 21 14 21 21M13 13 21 22 29 13',
  turn: 'M8 16A13 9 0 1 1 34 15M28 11 34 16 38 9',
}

/** The way from where a film lies to where it should, as a hand moves. */
export function Moves({
  films,
  from,
  to,
  isNow,
}: Readonly<{
  films: Place['films']
  /** Null: it is there. */
  from: readonly LaidFilm[] | null
  to: readonly LaidFilm[]
  /** From where it lies now; else from where it is drawn to what would be best. */
  isNow: boolean
}>): ReactNode {
  const units = useUnits()
  if (from === null) return null
  const ways = films.flatMap((film, at) => {
    const [start, end] = [from[at], to.find((each) => each.film === film.id)]
    if (start === undefined || end === undefined) return []
    const moves = movesOf(start, end, film)
    return moves.length === 0 ? [] : [{ film, moves }]
  })
  if (ways.length === 0) return isNow ? <p role="status">{PLACE_WORDS.there}</p> : null
  return (
    <div className={isNow ? 'place-moves' : 'place-moves place-moves-small'}>
      {ways.map(({ film, moves }) => (
        <div key={film.id}>
          <p>
            {isNow
              ? films.length > 1
                ? PLACE_WORDS.moveNamed(filmName(film))
                : PLACE_WORDS.moveNow
              : films.length > 1
                ? `${filmName(film)}: ${PLACE_WORDS.moveBest.toLowerCase()}`
                : PLACE_WORDS.moveBest}
          </p>
          <ul>
            {moves.map(({ way, mm }) => {
              const [figure = '', ...unit] = rulerText(mm, units).split(' ')
              return (
                <li key={way}>
                  <svg viewBox="0 0 42 24" width={42} height={24} aria-hidden="true">
                    <path className="place-way" d={ARROWS[way]} />
                  </svg>
                  {way === 'turn' ? (
                    <span>{PLACE_WORDS.ways.turn}</span>
                  ) : (
                    <span>
                      <strong>{figure}</strong>
                      {` ${unit.join(' ')} ${PLACE_WORDS.ways[way]}`}
                    </span>
                  )}
                </li>
              )
            })}
          </ul>
        </div>
      ))}
    </div>
  )
}
