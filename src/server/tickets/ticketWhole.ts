import { planAsked } from '../../api/printPlan.ts'
import type { Ticket as TicketTold } from '../../api/tickets.ts'
import type { Database } from '../../store/database/database.ts'
import { editionTalliesOf } from '../../store/editionTallies.ts'
import { films } from '../../store/films.ts'
import { inks } from '../../store/inks.ts'
import { layerEventsOf } from '../../store/layerEvents.ts'
import { people } from '../../store/people.ts'
import { printPlanOf } from '../../store/printPlans.ts'
import { screens } from '../../store/screens.ts'
import { theShop } from '../../store/shop.ts'
import { papers } from '../../store/stock.ts'
import { editionOf, type WholeTicket } from '../../store/tickets.ts'
import type { Told } from '../http/route.ts'
import { type TicketThings, ticketTold } from './ticketAnswer.ts'
import { whoNext } from './whoNext.ts'

const MOST_FILMS = 500

/** What the answers of tickets are made of. */
export async function thingsFor(
  database: Database,
  all: readonly WholeTicket[],
): Promise<TicketThings> {
  return {
    inks: await inks(database),
    people: await people(database),
    films: await films(database, { limit: MOST_FILMS }),
    screens: await screens(database),
    papers: await papers(database),
    events: await layerEventsOf(
      database,
      all.map(({ ticket }) => ticket.id),
    ),
  }
}

/** A ticket with all that is told of it. */
export async function wholeTold(
  database: Database,
  whole: WholeTicket,
  { at }: Readonly<{ at: Date }>,
): Promise<Told<TicketTold>> {
  const things = await thingsFor(database, [whole])
  const edition = await editionOf(database, whole.ticket.id)
  const isDemo = (await theShop(database)).kind === 'demo'
  const tallies = await editionTalliesOf(database, whole.ticket.id)
  const asked = planAsked.parse((await printPlanOf(database, whole.ticket.id)) ?? {})
  const who = await whoNext(database, { at })
  return ticketTold(whole, { ...things, edition, tallies, asked, isDemo, who })
}
