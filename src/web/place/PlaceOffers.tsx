import { type ReactNode, useMemo } from 'react'
import type { Place } from '../../api/place.ts'
import { Link, ROUTES } from '../router.tsx'
import { LayerPicture } from '../ticket/LayerPicture.tsx'
import './offers.css'
import { type PlaceKey, withPlace } from './placeQuery.ts'
import { BLACK_INK, filmName, PLACE_WORDS } from './placeWords.ts'

type Offers = NonNullable<Place['offers']>
type Offered = Offers['waiting'][number]

const THUMB_PX = 128

type OffersProps = Readonly<{ offers: Offers; search: string }>

/** Films that are still to be exposed, each a way to lay it. */
export function WaitingFilms({ offers, search }: OffersProps): ReactNode {
  const words = PLACE_WORDS.offers
  const groups = useMemo(() => groupsOf(offers.waiting), [offers])
  return (
    <section className="offers" aria-label={words.waiting}>
      <h2>{words.waiting}</h2>
      {groups.length === 0 && <p>{words.none}</p>}
      {groups.map(({ ticket, films }) => (
        <div key={ticket?.id ?? ''} className="offers-group">
          <p className="offers-of">
            <span>{ticket === null ? words.loose : ticket.name}</span>
            {ticket !== null && films.length > 1 && (
              <Link to={to(search, { ticket: ticket.id, films: '' })} className="second-act">
                <span>{words.together(films.length)}</span>
              </Link>
            )}
          </p>
          <ul>
            {films.map((film) => (
              <li key={film.id}>
                <Link to={to(search, { films: film.id })} className="offer">
                  <span className="offer-picture">
                    <LayerPicture film={film.id} ink={film.ink ?? BLACK_INK} widthPx={THUMB_PX} />
                  </span>
                  <span className="offer-words">
                    <strong>{filmName(film)}</strong>
                    {film.screen !== null && <span className="soft">{words.on(film.screen)}</span>}
                  </span>
                </Link>
              </li>
            ))}
          </ul>
        </div>
      ))}
      <p className="offers-more">
        <Link to={ROUTES.upload} className="second-act">
          <span>{words.bring}</span>
        </Link>
      </p>
    </section>
  )
}

/** Screens as they were laid last, each a way back to it. */
export function LaidScreens({ offers, search }: OffersProps): ReactNode {
  const words = PLACE_WORDS.offers
  if (offers.laid.length === 0) return null
  return (
    <section className="offers" aria-label={words.laid}>
      <h2>{words.laid}</h2>
      <ul>
        {offers.laid.map(({ screen, films, keptOn, laidOn }) => (
          <li key={screen.id}>
            <Link
              to={to(search, { films: films.map(({ id }) => id).join(','), screen: screen.id })}
              className="offer"
            >
              <span className="offer-words">
                <strong>{words.screen(screen.name)}</strong>
                <span>{films.map(({ name }) => name).join(', ')}</span>
                <span className="soft">
                  {laidOn === null ? PLACE_WORDS.planned(keptOn) : PLACE_WORDS.kept(laidOn)}
                </span>
              </span>
            </Link>
          </li>
        ))}
      </ul>
    </section>
  )
}

/** Where films are chosen and no screen is: those there are, each a way to lay them on it. */
export function ScreensToChoose({
  screens,
  search,
}: Readonly<{ screens: Place['choices']['screens']; search: string }>): ReactNode {
  const words = PLACE_WORDS.offers
  return (
    <section className="offers" aria-label={words.screens}>
      <h2>{words.screens}</h2>
      {screens.length === 0 ? (
        <p>
          {words.noScreens}{' '}
          <Link to={`${ROUTES.screens}?for=new`} className="second-act">
            <span>{words.tags}</span>
          </Link>
        </p>
      ) : (
        <ul>
          {screens.map(({ id, name, about }) => (
            <li key={id}>
              <Link to={withPlace(ROUTES.place, search, { screen: id })} className="offer">
                <span className="offer-words">
                  <strong>{words.screen(name)}</strong>
                  <span>{about}</span>
                </span>
              </Link>
            </li>
          ))}
        </ul>
      )}
    </section>
  )
}

/** The address with other films. */
function to(search: string, changes: Partial<Record<PlaceKey, string>>): string {
  return withPlace(ROUTES.place, search, { ticket: '', ...changes })
}

/** Films of one ticket stand together, in the order they came. */
function groupsOf(
  all: readonly Offered[],
): readonly Readonly<{ ticket: Offered['ticket']; films: readonly Offered[] }>[] {
  const ids = [...new Set(all.map(({ ticket }) => ticket?.id ?? ''))]
  return ids.map((id) => {
    const films = all.filter(({ ticket }) => (ticket?.id ?? '') === id)
    return { ticket: films[0]?.ticket ?? null, films }
  })
}
