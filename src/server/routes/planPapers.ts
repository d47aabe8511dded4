import type { Context, Hono } from 'hono'
import { editionCardPath, mixingCardPath, PATHS } from '../../api/paths.ts'
import { type PrintPlanTold, writingAsked } from '../../api/printPlan.ts'
import { deflater } from '../../decode/deflater.ts'
import { openLetters } from '../../decode/glyphs.ts'
import type { FilmPage } from '../../formats/filmPage.ts'
import { writeFilmPdf } from '../../formats/filmPdf.ts'
import type { Letters } from '../../formats/letters.ts'
import { theShop } from '../../store/shop.ts'
import { ticketOf } from '../../store/tickets.ts'
import { editionCardPages } from '../../workflow/papers/editionCard.ts'
import { printPlanPages } from '../../workflow/papers/editionPlan.ts'
import { filmQueuePages } from '../../workflow/papers/filmQueuePages.ts'
import { barText, listed, type PlanWriting, weightText } from '../../workflow/printPlanNumbers.ts'
import type { ShopDoor } from '../door.ts'
import { queueTold } from '../filmQueue/queueTold.ts'
import { asked } from '../http/asked.ts'
import { fileAnswer } from '../http/fileAnswer.ts'
import type { Told } from '../http/route.ts'
import { codeSquaresOf } from '../papers/codeSquares.ts'
import { inMemory } from '../papers/inMemory.ts'
import { dayText } from '../shop/days.ts'
import { planTold } from '../tickets/planTold.ts'
import { wholeTold } from '../tickets/ticketWhole.ts'

type LayerTold = Told<PrintPlanTold>['layers'][number]

/** A ticket's edition card and its print plan on paper; their code leads to the ticket's page. */
export function addPlanPapers(app: Hono, door: ShopDoor): void {
  const toldFor = async (context: Context) => {
    const service = door.shop()
    const { database } = service.store
    const whole = await ticketOf(database, context.req.param('ticket') ?? '')
    const ticket = await wholeTold(database, whole, { at: service.now() })
    const { name } = await theShop(database)
    const writing = asked(writingAsked, context.req.query())
    const address = new URL(`/tickets/${ticket.id}`, context.req.url)
    return {
      ticket,
      plan: await planTold(service, whole, writing),
      about: {
        code: ticket.code,
        name: ticket.name,
        square: codeSquaresOf(address.href),
        shop: { name, demo: ticket.demo },
      },
      date: dayText(service.now()),
    }
  }
  app.get(editionCardPath('TICKET').replace('TICKET', ':ticket'), async (context) => {
    const { ticket, plan, about, date } = await toldFor(context)
    const edition = {
      owner: ticket.owner,
      paper: ticket.paper,
      wanted: ticket.editionCount,
      card: ticket.edition === null ? null : { ...ticket.edition, signed: ticket.given.signed },
      closedOn: ticket.closedOn,
      about,
      date,
      layers: ticket.layers.map(({ id, place, shortName, ink, pulled, good, spoils }) => {
        const planned = plan.layers.find((each) => each.id === id)
        return {
          place,
          shortName,
          ink: ink?.name ?? shortName,
          recipe: plan.asked.mixed?.[id] ?? null,
          planned: recipeOf(planned, plan.units),
          screen: screenOf(planned),
          pulled,
          good,
          spoils,
          colour: colourOf(planned),
        }
      }),
    }
    return paper(context, {
      pages: (letters) => editionCardPages(edition, { letters }),
      title: `Edition card ${ticket.code}`,
      name: `${ticket.code} edition card ${date}.pdf`,
    })
  })
  app.get(mixingCardPath('TICKET').replace('TICKET', ':ticket'), async (context) => {
    const { ticket, plan, about, date } = await toldFor(context)
    const layers = plan.layers.map(({ id, shortName, line, recipe }) => ({
      place: ticket.layers.find((layer) => layer.id === id)?.place ?? 0,
      shortName,
      line,
      parts: recipe?.parts ?? null,
    }))
    return paper(context, {
      pages: (letters) =>
        printPlanPages({ lines: plan.lines, layers, about, date, units: plan.units }, { letters }),
      title: `Print plan ${ticket.code}`,
      name: `${ticket.code} print plan ${date}.pdf`,
    })
  })
}

/** Who waits for which film, on paper; its code leads to the page of the tickets. */
export function addFilmQueuePaper(app: Hono, door: ShopDoor): void {
  app.get(PATHS.filmQueuePdf, async (context) => {
    const service = door.shop()
    const { name, kind, units: own } = await theShop(service.store.database)
    const { units = own === 'inch' ? 'imperial' : 'metric' } = asked(
      writingAsked,
      context.req.query(),
    )
    const { films } = await queueTold(service, { units })
    const date = dayText(service.now())
    const measured = (
      bar: Readonly<{ barMm: number; measuredMm: number }> | null,
    ): string | null =>
      bar === null ? null : `${barText(bar.measuredMm, units)} of ${barText(bar.barMm, units)}`
    const queue = {
      films: films
        .filter(({ left }) => left === null)
        .map(({ what, layer, person, askedOn, madeOn, scale, liesIn }) => ({
          what,
          shortName: layer?.name.split(',')[0] ?? null,
          person: person?.name ?? null,
          askedOn,
          madeOn,
          along: measured(scale),
          across: measured(scale?.across ?? null),
          says: scale?.says ?? [],
          liesIn,
        })),
      about: {
        square: codeSquaresOf(new URL('/tickets', context.req.url).href),
        shop: { name, demo: kind === 'demo' },
      },
      date,
    }
    return paper(context, {
      pages: (letters) => filmQueuePages(queue, { letters }),
      title: 'Film queue',
      name: `film queue ${date}.pdf`,
    })
  })
}

async function paper(
  context: Context,
  {
    pages,
    title,
    name,
  }: Readonly<{ pages: (letters: Letters) => readonly FilmPage[]; title: string; name: string }>,
): Promise<Response> {
  const drawn = pages(await openLetters())
  const bytes = await inMemory((sink) => writeFilmPdf(drawn, { sink, deflater: deflater(), title }))
  return fileAnswer(context, bytes, { type: 'application/pdf', name })
}

function recipeOf(layer: LayerTold | undefined, units: PlanWriting['units']): string | null {
  const parts = layer?.recipe?.parts ?? []
  return parts.length === 0
    ? null
    : listed(parts.map(({ name, grams }) => `${weightText(grams, units)} ${name}`))
}

function screenOf(layer: LayerTold | undefined): string | null {
  const screen = layer?.screen ?? null
  return screen === null || !screen.isChosen ? null : `${screen.name}, ${screen.fabric}`
}

const VERDICTS = {
  agrees: 'agrees with its proof',
  differs: 'differs from its proof',
  'cannot tell': 'may agree with its proof or not',
} as const

function colourOf(layer: LayerTold | undefined): string | null {
  const [check] = layer?.checks ?? []
  if (check === undefined) return null
  const { verdict, deltaE, doubtDeltaE, how, on, lab } = check
  const [l, a, b] = lab.map((channel) => channel.toFixed(1))
  return `Colour ${VERDICTS[verdict]}: L ${l}, a ${a}, b ${b}, ${deltaE.toFixed(1)} apart, give or take ${doubtDeltaE.toFixed(1)} (${how === 'photo' ? 'by photo' : 'measured'}, ${on}).`
}
