import type { z } from 'zod'
import { PATHS, planColourPath, planPath } from '../../api/paths.ts'
import {
  type ColourAsked,
  colourAsked,
  planAsked,
  printPlan,
  type StockCounted,
  stock,
  stockCounted,
  writingAsked,
} from '../../api/printPlan.ts'
import { Failure } from '../../core/failure.ts'
import { colourFromPhoto, measuredColour, type SeenColour } from '../../core/print/colourCheck.ts'
import type { Database } from '../../store/database/database.ts'
import { inkOf, inks } from '../../store/inks.ts'
import { currencyOf, keepCurrency } from '../../store/money.ts'
import { addColourCheck, keepPrintPlan, takeBackColourCheck } from '../../store/printPlans.ts'
import { addPaper, countInk, countPaper, inkStocks, papers } from '../../store/stock.ts'
import { ticketOf, type WholeTicket } from '../../store/tickets.ts'
import type { ShopDoor } from '../door.ts'
import { type Route, route, type Told } from '../http/route.ts'
import { planTold } from '../tickets/planTold.ts'

const ofTicket = (path: (ticket: string) => string): string =>
  path('TICKET').replace('TICKET', '{ticket}')

/** What printing a ticket takes, and what is on the shelf for it. */
export function planRoutes(door: ShopDoor): readonly Route[] {
  const database = (): Database => door.shop().store.database
  const told = async (id: string, writing: z.infer<typeof writingAsked>) =>
    planTold(door.shop(), await ticketOf(database(), id), writing)
  return [
    route({
      method: 'get',
      path: ofTicket(planPath),
      summary: 'what printing a ticket takes: order, register, off-contact, ink, paper, time, cost',
      query: writingAsked,
      answer: printPlan,
      run: ({ place, query }) => told(place('ticket'), query),
    }),
    route({
      method: 'post',
      path: ofTicket(planPath),
      summary: 'settles what is not as usual about printing a ticket, in place of what was settled',
      query: writingAsked,
      body: planAsked,
      answer: printPlan,
      run: async ({ body, place, query }) => {
        const { ticket } = await ticketOf(database(), place('ticket'))
        if (body.paper !== undefined) await expectPaper(database(), body.paper)
        const asked = JSON.parse(JSON.stringify(body)) as never
        await keepPrintPlan(database(), { ticketId: ticket.id, asked }, { at: door.shop().now() })
        return told(ticket.id, query)
      },
    }),
    route({
      method: 'post',
      path: ofTicket(planColourPath),
      summary:
        'a layer’s colour on the print, measured or off a photo beside a grey card, against its proof',
      query: writingAsked,
      body: colourAsked,
      answer: printPlan,
      run: async ({ body, place, query }) => {
        const whole = await ticketOf(database(), place('ticket'))
        await checked(database(), { whole, asked: body, at: door.shop().now() })
        return told(whole.ticket.id, query)
      },
    }),
    route({
      method: 'get',
      path: PATHS.stock,
      summary: 'inks and papers on the shelf',
      answer: stock,
      run: () => stockTold(database()),
    }),
    route({
      method: 'post',
      path: PATHS.stock,
      summary:
        'an ink or a paper was counted, in place of what was counted before; or what prices are in',
      body: stockCounted,
      answer: stock,
      run: async ({ body }) => {
        await counted(database(), body, door.shop().now())
        return stockTold(database())
      },
    }),
  ]
}

async function stockTold(database: Database): Promise<Told<typeof stock._output>> {
  const counts = await inkStocks(database)
  return {
    kind: 'stock',
    currency: await currencyOf(database),
    inks: (await inks(database)).map(({ id, name, labL, labA, labB }) => {
      const count = counts.find(({ inkId }) => inkId === id)
      const { grams = null, pricePerKg = null } = count ?? {}
      return { id, name, lab: [labL, labA, labB], grams, pricePerKg }
    }),
    papers: (await papers(database)).map(
      ({ id, name, widthMm, heightMm, sheets, pricePerSheet }) => {
        return { id, name, widthMm, heightMm, sheets, pricePerSheet }
      },
    ),
  }
}

async function counted(database: Database, body: StockCounted, at: Date): Promise<void> {
  if (body.kind === 'ink') {
    const { id } = await inkOf(database, body.ink)
    const { grams, pricePerKg } = body
    return countInk(database, { inkId: id, grams, pricePerKg }, { at })
  }
  if (body.kind === 'currency') {
    if (!Intl.supportedValuesOf('currency').includes(body.currency)) {
      const message = `${body.currency} is no currency that is known here: write its code of three letters, like EUR.`
      throw new Failure('wrong input', message, { field: 'currency' })
    }
    return keepCurrency(database, body.currency, { at })
  }
  const { kind: _, paper, ...counts } = body
  if (paper === undefined) await addPaper(database, counts, { at })
  else await countPaper(database, paper, counts, { at })
}

async function checked(
  database: Database,
  { whole: { layers }, asked, at }: Readonly<{ whole: WholeTicket; asked: ColourAsked; at: Date }>,
): Promise<void> {
  if (asked.kind === 'take back') {
    const ids = layers.map(({ id }) => id)
    if (await takeBackColourCheck(database, { id: asked.check, layers: ids }, { at })) return
    throw new Failure('not found', 'There is no such colour check on this ticket: open it again.')
  }
  const layer = layers.find(({ id }) => id === asked.layer)
  if (layer === undefined || layer.inkId === null) {
    const message = 'There is no such layer with an ink on this ticket: choose one that is there.'
    throw new Failure('not found', message, { field: 'layer' })
  }
  const { labL, labA, labB } = await inkOf(database, layer.inkId)
  const { lab, doubtDeltaE } = seenIn(asked)
  const check = {
    layerId: layer.id,
    how: asked.kind,
    readings:
      asked.kind === 'measured'
        ? asked.readings
        : { patch: asked.patch, card: asked.card, cardL: asked.cardL },
    wantedL: labL,
    wantedA: labA,
    wantedB: labB,
    seenL: lab[0],
    seenA: lab[1],
    seenB: lab[2],
    doubtDeltaE,
  }
  await addColourCheck(database, check, { at })
}

/** @throws Failure 'wrong input' for a card that shows no grey */
function seenIn(asked: Exclude<ColourAsked, { kind: 'take back' }>): SeenColour {
  if (asked.kind === 'measured') return measuredColour(asked.readings)
  if (!asked.card.every((channel) => channel > 0.02 && channel < 0.995)) {
    const message =
      'The grey card is black or burnt out in the photo: take it again with less or more light.'
    throw new Failure('wrong input', message, { field: 'card' })
  }
  return colourFromPhoto(asked, asked)
}

async function expectPaper(database: Database, id: string): Promise<void> {
  if ((await papers(database)).some((paper) => paper.id === id)) return
  const message = 'There is no such paper on the shelf: choose one that is there.'
  throw new Failure('not found', message, { field: 'paper' })
}
