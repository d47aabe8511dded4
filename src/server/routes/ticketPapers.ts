import type { Hono } from 'hono'
import { jobTicketPath } from '../../api/paths.ts'
import { type PrintPlanTold, writingAsked } from '../../api/printPlan.ts'
import type { Ticket } from '../../api/tickets.ts'
import { deflater } from '../../decode/deflater.ts'
import { openLetters } from '../../decode/glyphs.ts'
import { writeFilmPdf } from '../../formats/filmPdf.ts'
import { theShop } from '../../store/shop.ts'
import { ticketOf } from '../../store/tickets.ts'
import { jobTicketPages } from '../../workflow/papers/jobTicket.ts'
import type { ShopDoor } from '../door.ts'
import { asked } from '../http/asked.ts'
import { fileAnswer } from '../http/fileAnswer.ts'
import type { Told } from '../http/route.ts'
import { codeSquaresOf } from '../papers/codeSquares.ts'
import { inMemory } from '../papers/inMemory.ts'
import { dayText } from '../shop/days.ts'
import { planTold } from '../tickets/planTold.ts'
import { wholeTold } from '../tickets/ticketWhole.ts'

/** The ticket on paper; its code leads back to the page, at the address by which one came. */
export function addJobTicket(app: Hono, door: ShopDoor): void {
  app.get(jobTicketPath('TICKET').replace('TICKET', ':ticket'), async (context) => {
    const service = door.shop()
    const { store, now } = service
    const whole = await ticketOf(store.database, context.req.param('ticket') ?? '')
    const ticket = await wholeTold(store.database, whole, { at: now() })
    const plan = await planTold(service, whole, asked(writingAsked, context.req.query()))
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
          press: pressOf(plan.layers.find(({ id }) => id === layer.id)),
        })),
        next: ticket.next === null ? null : nextSays(ticket.next),
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

/** Its screen, and what the plan says of it after its name. */
function pressOf(layer: Told<PrintPlanTold>['layers'][number] | undefined): string | null {
  if (layer === undefined) return null
  const { screen, line } = layer
  const on = screen !== null && screen.isChosen ? [`${screen.name}, ${screen.fabric}`] : []
  return [...on, line.says.replace(/^[^:]*: /, '').replace(/[.]$/, '')].join('; ')
}

function nextSays({ ink, station, who }: NonNullable<Told<Ticket>['next']>): string {
  return `Next: ${ink}, ${station}. ${who.says}`
}
