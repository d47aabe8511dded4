import type { Hono } from 'hono'
import { jobTicketPath } from '../../api/paths.ts'
import { deflater } from '../../decode/deflater.ts'
import { openLetters } from '../../decode/glyphs.ts'
import { writeFilmPdf } from '../../formats/filmPdf.ts'
import { theShop } from '../../store/shop.ts'
import { ticketOf } from '../../store/tickets.ts'
import { jobTicketPages } from '../../workflow/papers/jobTicket.ts'
import type { ShopDoor } from '../door.ts'
import { fileAnswer } from '../http/fileAnswer.ts'
import { codeSquaresOf } from '../papers/codeSquares.ts'
import { inMemory } from '../papers/inMemory.ts'
import { dayText } from '../shop/days.ts'
import { wholeTold } from '../tickets/ticketWhole.ts'

/** The ticket on paper; its code leads back to the page, at the address by which one came. */
export function addJobTicket(app: Hono, door: ShopDoor): void {
  app.get(jobTicketPath('TICKET').replace('TICKET', ':ticket'), async (context) => {
    const { store, now } = door.shop()
    const ticket = await wholeTold(
      store.database,
      await ticketOf(store.database, context.req.param('ticket') ?? ''),
      { at: now() },
    )
    const { name } = await theShop(store.database)
    const date = dayText(now())
    const address = new URL(`/tickets/${ticket.id}`, context.req.url)
    const pages = jobTicketPages(
      {
        ...ticket,
        layers: ticket.layers.map(({ ink, film, ...layer }) => ({
          ...layer,
          ink: ink?.name ?? layer.shortName,
          film: film?.name ?? null,
        })),
        square: codeSquaresOf(address.href),
        shop: { name, demo: ticket.demo },
        date,
      },
      { letters: await openLetters() },
    )
    const title = `Job ticket ${ticket.code}`
    const bytes = await inMemory((sink) =>
      writeFilmPdf(pages, { sink, deflater: deflater(), title }),
    )
    return fileAnswer(context, bytes, {
      type: 'application/pdf',
      name: `${ticket.code} ${date}.pdf`,
    })
  })
}
