import { type ReactNode, useCallback, useMemo } from 'react'
import type { Artwork, ArtworkList, ArtworkQuestion } from '../../api/artwork.ts'
import { PATHS } from '../../api/paths.ts'
import type { TicketList } from '../../api/tickets.ts'
import { DropPlace, Progress } from '../film/DropPlace.tsx'
import { Standing } from '../frame/Standing.tsx'
import { artworkRoute, Link, ROUTES, useWay } from '../router.tsx'
import { SecondAct } from '../signs/Button.tsx'
import { useAsked } from '../useAsked.ts'
import { useSending } from '../useSending.ts'
import './films.css'
import '../signs/progress.css'
import { FILMS_WORDS } from './filmsWords.ts'

const ARTWORKS = { path: PATHS.artworks }
const TICKETS = { path: PATHS.tickets }
const { list } = FILMS_WORDS
const TAKEN = 'image/*,.svg,.pdf,.tif,.tiff,.png,.jpg,.jpeg,.webp,.ora'

/** Artwork that is here, and a way to bring more. */
export function ArtworksPage(): ReactNode {
  const { search, go } = useWay()
  const ticket = useMemo(() => new URLSearchParams(search).get('ticket'), [search])
  const [artworks, askAgain] = useAsked<ArtworkList>(ARTWORKS)
  const [tickets] = useAsked<TicketList>(ticket === null ? null : TICKETS)
  const taken = useCallback((answer: unknown) => go(artworkRoute((answer as Artwork).id)), [go])
  const { sending, send, stop } = useSending(PATHS.artworks, taken)
  const of = tickets.answer?.tickets.find(({ id }) => id === ticket)
  const isUnderWay = sending.state === 'sending'
  return (
    <div className="upload">
      <div className="upload-words">
        <h1>{FILMS_WORDS.title}</h1>
        <p className="upload-intro">{list.intro}</p>
        {of !== undefined && <p>{list.forTicket(`${of.code} ${of.name}`)}</p>}
        <DropPlace
          words={list}
          accept={TAKEN}
          isUnderWay={isUnderWay}
          onFile={(file) => send(file, questionOf(ticket))}
        />
        <div className="how-far" aria-live="polite">
          {isUnderWay && (
            <Progress says={list.sending(percentOf(sending.share))} share={sending.share} />
          )}
          {sending.state === 'refused' && <p className="upload-refused">{sending.message}</p>}
          {sending.state === 'cut' && <p className="upload-refused">{list.cut}</p>}
        </div>
        {isUnderWay && <SecondAct onPress={stop}>{list.stop}</SecondAct>}
        <p>
          <Link to={ROUTES.upload} className="second-act">
            <span>{list.drawn}</span>
          </Link>
        </p>
      </div>
      <div className="upload-films">
        <h2>{list.here}</h2>
        <Standing asked={artworks} working={list.fetching} onAgain={askAgain} />
        {artworks.answer !== null && <Here artworks={artworks.answer.artworks} />}
      </div>
    </div>
  )
}

function questionOf(ticket: string | null): ArtworkQuestion {
  return ticket === null ? {} : { ticket }
}

/** Said aloud at each tenth, not at each byte. */
function percentOf(share: number): string {
  return `${Math.floor(10 * share) * 10} %`
}

function Here({ artworks }: Readonly<{ artworks: ArtworkList['artworks'] }>): ReactNode {
  if (artworks.length === 0) return <p>{list.none}</p>
  return (
    <ul className="films-here">
      {artworks.map(({ id, name, status, films, ticket }) => (
        <li key={id}>
          <Link to={artworkRoute(id)} className="film-here">
            <strong>{name}</strong>
            <span className="soft">
              {[ticket?.name, status === 'failed' ? list.failed : list.films(films)]
                .filter((part) => part !== undefined)
                .join(', ')}
            </span>
          </Link>
        </li>
      ))}
    </ul>
  )
}
