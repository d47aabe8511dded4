import { type ReactNode, useState } from 'react'
import { PATHS } from '../../api/paths.ts'
import type { TicketList } from '../../api/tickets.ts'
import { Standing } from '../frame/Standing.tsx'
import { Link, ticketRoute } from '../router.tsx'
import { Button } from '../signs/Button.tsx'
import '../tests/entry.css'
import { useAsked } from '../useAsked.ts'
import { inkColour, LayerPicture } from './LayerPicture.tsx'
import { NewTicket } from './NewTicket.tsx'
import { FilmQueue } from './queue/FilmQueue.tsx'
import './ticket.css'
import { TICKET_WORDS } from './ticketWords.ts'

/** Small prints are drawn of so many; the others show their inks. */
const MOST_DRAWN = 24
const SMALL_PX = 160

const TICKETS = { path: PATHS.tickets }

/** The prints that are under way, each with its next thing. */
export function TicketsPage(): ReactNode {
  const [asked, askAgain] = useAsked<TicketList>(TICKETS)
  const [isNew, setNew] = useState(false)
  const words = TICKET_WORDS.list
  const list = asked.answer
  const open = list?.tickets.filter(({ closedOn }) => closedOn === null) ?? []
  const closed = list?.tickets.filter(({ closedOn }) => closedOn !== null) ?? []
  return (
    <div className="tickets">
      <h1>{words.title}</h1>
      <Standing asked={asked} working={words.fetching} onAgain={askAgain} />
      {list !== null && (
        <>
          {list.tickets.length === 0 && <p>{words.none}</p>}
          <Tickets tickets={open} />
          {isNew ? (
            <NewTicket list={list} onLeave={() => setNew(false)} />
          ) : (
            <div>
              <Button onPress={() => setNew(true)}>{TICKET_WORDS.fresh.open}</Button>
            </div>
          )}
          {closed.length > 0 && <h2>{words.closed}</h2>}
          <Tickets tickets={closed} />
          <FilmQueue />
        </>
      )}
    </div>
  )
}

function Tickets({ tickets }: Readonly<{ tickets: TicketList['tickets'] }>): ReactNode {
  const words = TICKET_WORDS.list
  if (tickets.length === 0) return null
  return (
    <ul className="ticket-list">
      {tickets.map(({ id, code, name, owner, inks, drawn, next, closedOn }, at) => (
        <li key={id}>
          <Link to={ticketRoute(id)} className="ticket-line">
            {drawn.length > 0 && at < MOST_DRAWN ? (
              <span className="ticket-print" aria-hidden="true">
                {drawn.map(({ film, ink }) => (
                  <LayerPicture key={film} film={film} ink={ink} widthPx={SMALL_PX} />
                ))}
              </span>
            ) : (
              <span className="ticket-inks" aria-hidden="true">
                {inks.map((ink, place) => (
                  // an ink may be printed twice
                  // oxlint-disable-next-line react/no-array-index-key
                  <span key={place} style={{ background: inkColour(ink) }} />
                ))}
              </span>
            )}
            <span className="ticket-name">{name}</span>
            <span className="soft">{[code, owner].filter((part) => part !== null).join(', ')}</span>
            <span className="ticket-next">
              {closedOn !== null
                ? words.closedOn(closedOn)
                : next === null
                  ? words.allDone
                  : words.next(next.ink, TICKET_WORDS.stations[next.station].toLowerCase())}
            </span>
          </Link>
        </li>
      ))}
    </ul>
  )
}
