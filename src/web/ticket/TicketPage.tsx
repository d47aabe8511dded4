import { type ReactNode, useState } from 'react'
import { jobTicketPath } from '../../api/paths.ts'
import type { Ticket } from '../../api/tickets.ts'
import { Standing } from '../frame/Standing.tsx'
import { useUnits } from '../shop.tsx'
import { SecondAct } from '../signs/Button.tsx'
import '../tests/entry.css'
import { AboutTicket } from './AboutTicket.tsx'
import { EditionCard } from './EditionCard.tsx'
import { LayerRow } from './LayerRow.tsx'
import { NextAct } from './NextAct.tsx'
import { PlanSection } from './PlanSection.tsx'
import { PrintPicture } from './PrintPicture.tsx'
import './ticket.css'
import { TICKET_WORDS } from './ticketWords.ts'
import { type Act, useTicket } from './useTicket.ts'

/** One print, from artwork to edition. */
export function TicketPage({ ticket: id }: Readonly<{ ticket: string }>): ReactNode {
  const { asked, ticket, askAgain, message, field, isBusy, act } = useTicket(id)
  const units = useUnits()
  const [choosing, setChoosing] = useState<string | null>(null)
  const standing = <Standing asked={asked} working={TICKET_WORDS.fetching} onAgain={askAgain} />
  if (ticket === null) {
    return (
      <div className="ticket">
        {asked.slow && <h1>{TICKET_WORDS.list.title}</h1>}
        {standing}
      </div>
    )
  }
  const aboutCard = field === 'numbered'
  return (
    <div className="ticket">
      <div className="ticket-picture">
        <PrintPicture ticket={ticket} />
        <PlanSection ticket={ticket} />
      </div>
      <div className="ticket-words">
        <h1>{ticket.name}</h1>
        <p className="ticket-lead">{leadOf(ticket)}</p>
        {standing}
        {message !== null && !aboutCard && (
          <p role="alert" className="entry-wrong">
            {message}
          </p>
        )}
        <NextAct ticket={ticket} act={act} isBusy={isBusy} onChoose={setChoosing} />
        <ul className="layers">
          {ticket.layers.map((layer) => (
            <LayerRow
              key={layer.id}
              layer={layer}
              ticket={ticket}
              act={act}
              isChoosing={choosing === layer.id && layer.screen === null}
            />
          ))}
        </ul>
        {isCounted(ticket) && (
          <EditionCard ticket={ticket} act={act} wrong={aboutCard ? message : null} />
        )}
        <Log ticket={ticket} act={act} />
        {ticket.closedOn === null && (
          <AboutTicket key={JSON.stringify(aboutOf(ticket))} ticket={ticket} act={act} />
        )}
        <p className="ticket-papers">
          <a href={`${jobTicketPath(ticket.id)}?units=${units}`} className="second-act">
            <span>{TICKET_WORDS.onPaper}</span>
          </a>
        </p>
      </div>
    </div>
  )
}

/** What the blanks begin with. */
function aboutOf({ name, owner, paper, editionCount, layers }: Ticket): readonly unknown[] {
  return [name, owner, paper, editionCount, layers.length]
}

/** An edition is closed once sheets came through the last layer. */
function isCounted({ layers, closedOn }: Ticket): boolean {
  return closedOn !== null || (layers.at(-1)?.good ?? 0) > 0
}

function leadOf({ owner, layers, code, next, closedOn }: Ticket): ReactNode {
  const whose = owner === null ? TICKET_WORDS.nobodys : TICKET_WORDS.whose(owner)
  return (
    <>
      {`${whose}, ${TICKET_WORDS.layers(layers.length)}, ${TICKET_WORDS.code(code)}. `}
      {closedOn !== null
        ? TICKET_WORDS.closed(closedOn)
        : next === null
          ? TICKET_WORDS.doneAll
          : null}
      {next !== null && (
        <strong>
          {TICKET_WORDS.next}
          {TICKET_WORDS.nextIs(`${next.ink}, ${TICKET_WORDS.stations[next.station].toLowerCase()}`)}
        </strong>
      )}
    </>
  )
}

/** The newest are what one looks for. */
const FIRST_SHOWN = 8

function Log({
  ticket,
  act,
}: Readonly<{ ticket: Ticket; act: (act: Act) => Promise<boolean> }>): ReactNode {
  const [isOpen, setOpen] = useState(false)
  const [isAll, setAll] = useState(false)
  const shown = isAll ? ticket.log : ticket.log.slice(0, FIRST_SHOWN)
  return (
    <div className="unfolding">
      <SecondAct expanded={isOpen} onPress={() => setOpen(!isOpen)}>
        {TICKET_WORDS.log}
      </SecondAct>
      {isOpen && ticket.log.length === 0 && <p>{TICKET_WORDS.logNone}</p>}
      {isOpen && ticket.log.length > 0 && (
        <ul className="log unfolded">
          {shown.map(({ id, on, layer, says, by }) => (
            <li key={id}>
              <span>{`${on}  ${layer}: ${by === null ? says : TICKET_WORDS.logBy(says, by)}`}</span>
              {ticket.closedOn === null && (
                <SecondAct onPress={() => void act({ kind: 'take back', entry: id })}>
                  {TICKET_WORDS.takeBack}
                </SecondAct>
              )}
            </li>
          ))}
        </ul>
      )}
      {isOpen && shown.length < ticket.log.length && (
        <SecondAct onPress={() => setAll(true)}>{TICKET_WORDS.logAll(ticket.log.length)}</SecondAct>
      )}
    </div>
  )
}
