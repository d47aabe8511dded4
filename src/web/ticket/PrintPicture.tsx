import type { ReactNode } from 'react'
import type { Ticket } from '../../api/tickets.ts'
import { LayerPicture, PRINT_WIDTH_PX } from './LayerPicture.tsx'
import { TICKET_WORDS } from './ticketWords.ts'

/** How the print should look: its films in their inks, one over the other, on its paper. */
export function PrintPicture({ ticket }: Readonly<{ ticket: Ticket }>): ReactNode {
  const { name, layers, paper } = ticket
  const drawn = layers.filter(({ film, ink }) => film !== null && ink !== null)
  const beingRead = drawn.flatMap(({ film, ink }) =>
    film?.status === 'waiting' && ink !== null ? [ink.name] : [],
  )
  const isPrinted = ({ at }: Ticket['layers'][number]): boolean => at === null || at === 'reclaim'
  const toCome = layers.filter((layer) => !isPrinted(layer)).flatMap(({ ink }) => ink?.name ?? [])
  return (
    <figure className="print">
      <div
        className="print-sheet"
        role="img"
        aria-label={
          drawn.length === 0
            ? TICKET_WORDS.noFilms
            : TICKET_WORDS.picture(
                name,
                drawn.flatMap(({ ink }) => ink?.name ?? []),
              )
        }
      >
        {drawn.length === 0 && <p>{TICKET_WORDS.noFilms}</p>}
        {drawn.map(({ id, film, ink }) =>
          film === null || ink === null ? null : (
            <LayerPicture key={id} film={film.id} ink={ink} widthPx={PRINT_WIDTH_PX} />
          ),
        )}
      </div>
      <figcaption className="print-words">
        <span>
          {TICKET_WORDS.shouldLook}
          {TICKET_WORDS.notPrinted(toCome)}
        </span>
        {paper !== null && <span>{paper}</span>}
        {beingRead.length > 0 && <span>{TICKET_WORDS.reading(beingRead)}</span>}
      </figcaption>
    </figure>
  )
}
