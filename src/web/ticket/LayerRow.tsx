import { type ReactNode, useState } from 'react'
import type { Layer, Ticket } from '../../api/tickets.ts'
import { STATIONS, type StationName } from '../../core/ticket/road.ts'
import { withPlace } from '../place/placeQuery.ts'
import { filmRoute, Link, ROUTES } from '../router.tsx'
import { Blank } from '../signs/Blank.tsx'
import { SecondAct } from '../signs/Button.tsx'
import { StationFrame } from '../signs/StationFrame.tsx'
import { Entry } from '../tests/Entry.tsx'
import { ChooseScreen } from './choose/ChooseScreen.tsx'
import { inkColour, LayerPicture } from './LayerPicture.tsx'
import { Tally } from './Tally.tsx'
import { TICKET_WORDS } from './ticketWords.ts'
import type { Act } from './useTicket.ts'

const THUMB_PX = 264

type LayerRowProps = Readonly<{
  layer: Layer
  ticket: Ticket
  act: (act: Act) => Promise<boolean>
  /** Its screen is asked for. */
  isChoosing: boolean
}>

/** One ink of a print: its film, its road, its tally. */
export function LayerRow({ layer, ticket, act, isChoosing }: LayerRowProps): ReactNode {
  const { place, ink, film, road, at, pulled, spoils, shortName } = layer
  const [isOpen, setOpen] = useState(false)
  const counted = pulled + spoils.length > 0
  return (
    <li className="layer">
      <div className="layer-thumb">
        {film !== null && ink !== null && (
          <LayerPicture film={film.id} ink={ink} widthPx={THUMB_PX} />
        )}
      </div>
      <div className="layer-words">
        <div className="layer-head">
          <h2>{TICKET_WORDS.layer(place, ink?.name ?? shortName)}</h2>
          {ink !== null && (
            <span
              className="layer-swatch"
              style={{ background: inkColour(ink) }}
              aria-hidden="true"
            />
          )}
        </div>
        <p className="road">
          <span className="road-frames" aria-hidden="true">
            {road.map((state, index) => (
              <StationFrame key={STATIONS[index]} state={state} size={22} />
            ))}
          </span>
          <span>{at === null ? TICKET_WORDS.finished : TICKET_WORDS.stations[at]}</span>
        </p>
        <Tally count={pulled} />
        {counted && (
          <p className="small">
            {[TICKET_WORDS.pulled(pulled), TICKET_WORDS.spoils(spoils)]
              .filter((part) => part !== '')
              .join(', ')}
          </p>
        )}
        <p className="small">
          {shortName}
          {film !== null && (
            <>
              {', '}
              <Link to={filmRoute(film.id)} className="word-link">
                {film.name}
              </Link>
              {at !== null && (
                <>
                  {', '}
                  <Link to={withPlace(ROUTES.place, '', { films: film.id })} className="word-link">
                    {TICKET_WORDS.toPlace}
                  </Link>
                </>
              )}
            </>
          )}
        </p>
        {ticket.closedOn === null && at !== null && (
          <ChooseScreen key={String(isChoosing)} layer={layer} act={act} isAsked={isChoosing} />
        )}
        {ticket.closedOn === null && (
          <SecondAct expanded={isOpen} onPress={() => setOpen(!isOpen)}>
            {TICKET_WORDS.change(ink?.name ?? shortName)}
          </SecondAct>
        )}
        {isOpen && <Change layer={layer} ticket={ticket} act={act} onDone={() => setOpen(false)} />}
      </div>
    </li>
  )
}

/** What was done elsewhere, which film it is, and how a layer goes back. */
function Change({
  layer,
  ticket,
  act,
  onDone,
}: Omit<LayerRowProps, 'isChoosing'> & Readonly<{ onDone: () => void }>): ReactNode {
  const { id, at, film } = layer
  const [back, setBack] = useState<StationName | ''>('')
  const [why, setWhy] = useState('')
  const [wrong, setWrong] = useState<string | null>(null)
  const behind = STATIONS.slice(0, at === null ? STATIONS.length : STATIONS.indexOf(at))
  const sendBack = async (): Promise<void> => {
    if (back === '') return
    if (why.trim() === '') setWrong(TICKET_WORDS.whyMissing)
    else if (await act({ kind: 'back', layer: id, station: back, why: why.trim() })) onDone()
  }
  const done = async (station: StationName): Promise<void> => {
    if (await act({ kind: 'done', layer: id, station })) onDone()
  }
  return (
    <div className="unfolded">
      {at !== null && (
        <SecondAct onPress={() => void done(at)}>{TICKET_WORDS.doneThere[at]}</SecondAct>
      )}
      <p>
        {TICKET_WORDS.itsFilm}
        <Blank
          label={TICKET_WORDS.itsFilm}
          value={film?.id ?? ''}
          choices={ticket.films}
          open={TICKET_WORDS.noFilm}
          onChoice={(chosen) => {
            if (chosen !== '') void act({ kind: 'film', layer: id, film: chosen })
          }}
        />
        .
      </p>
      {behind.length > 0 && (
        <p>
          {TICKET_WORDS.back}
          <Blank
            label={TICKET_WORDS.back}
            value={back}
            choices={behind.map((station) => ({
              id: station,
              name: TICKET_WORDS.stations[station],
            }))}
            open={TICKET_WORDS.backTo}
            onChoice={(chosen) => setBack(chosen as StationName | '')}
          />
          .
        </p>
      )}
      {back !== '' && (
        <>
          <Entry
            label={TICKET_WORDS.why}
            value={why}
            example={TICKET_WORDS.whyExample}
            longest={120}
            wrong={wrong}
            onEntry={(written) => {
              setWrong(null)
              setWhy(written)
            }}
          />
          <SecondAct onPress={() => void sendBack()}>{TICKET_WORDS.backAct}</SecondAct>
        </>
      )}
    </div>
  )
}
