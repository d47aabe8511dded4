import { measuredColour } from '../../core/print/colourCheck.ts'
import { share } from '../../core/units/quantity.ts'
import type { DemoFilmName } from '../../demo/films.ts'
import { DEMO_SHOP } from '../../demo/shop.ts'
import type { Database } from '../../store/database/database.ts'
import { addInk } from '../../store/inks.ts'
import { addLayerEvent } from '../../store/layerEvents.ts'
import { keepCurrency } from '../../store/money.ts'
import { addColourCheck, keepPrintPlan } from '../../store/printPlans.ts'
import { addPaper, countInk } from '../../store/stock.ts'
import { type Layer, openTicket } from '../../store/tickets.ts'
import { daysBefore } from './demoPast.ts'

type At = Readonly<{ at: Date }>
type Ids = ReadonlyMap<string, string>

/**
 * The demo shop's print of three layers, with what stands on the shelf for it and what was told of
 * it so far.
 *
 * @returns the layer of each film that has one
 */
export async function addDemoTicket(
  database: Database,
  { people, screens, at }: At & Readonly<{ people: Ids; screens: Ids }>,
): Promise<ReadonlyMap<DemoFilmName, string>> {
  const { letter, title, owner, paper, edition, layers, plan } = DEMO_SHOP.ticket
  const inks = await addDemoInks(database, { at })
  const ticket = await openTicket(
    database,
    {
      ticket: {
        code: letter,
        name: title,
        ownerId: people.get(owner) ?? null,
        paper,
        editionCount: edition,
      },
      layers: layers.map(({ order, ink, screen }) => ({
        place: order,
        inkId: inks.get(ink) ?? null,
        screenId: screens.get(screen ?? '') ?? null,
        shortName: `${letter}-${ink.charAt(0).toUpperCase()}`,
      })),
    },
    { at },
  )
  await keepCurrency(database, DEMO_SHOP.currency, { at })
  const papers = new Map<string, string>()
  for (const each of DEMO_SHOP.papers) {
    papers.set(each.name, (await addPaper(database, each, { at })).id)
  }
  const asked = { ...plan, paper: papers.get(paper) ?? '' }
  await keepPrintPlan(database, { ticketId: ticket.ticket.id, asked }, { at })
  await addDemoPrinted(database, { layers: ticket.layers, at })
  return new Map(
    layers.flatMap(({ film }, index) => {
      const layer = ticket.layers[index]
      return film === null || layer === undefined ? [] : [[film, layer.id] as const]
    }),
  )
}

async function addDemoInks(database: Database, { at }: At): Promise<Ids> {
  const ids = new Map<string, string>()
  for (const [index, { name, lab, opacity, grams, pricePerKg }] of DEMO_SHOP.inks.entries()) {
    const [labL, labA, labB] = lab
    const ink = { name, labL, labA, labB, opacity: share(opacity), status: 'estimated' } as const
    const { id } = await addInk(database, ink, { at: new Date(at.getTime() + index) })
    ids.set(name, id)
    if (grams !== null) await countInk(database, { inkId: id, grams, pricePerKg }, { at })
  }
  return ids
}

/** What the log of the ticket holds already, and the colours that were checked. */
async function addDemoPrinted(
  database: Database,
  { layers, at }: At & Readonly<{ layers: readonly Layer[] }>,
): Promise<void> {
  for (const [index, { ink, printed }] of DEMO_SHOP.ticket.layers.entries()) {
    const layerId = layers[index]?.id
    if (printed === null || layerId === undefined) continue
    const { pulled, spoiled, why, isReclaimed, readings } = printed
    const happened = [
      { kind: 'done', station: 'water' },
      { kind: 'pulled', sheets: pulled },
      { kind: 'spoiled', sheets: spoiled, why },
      { kind: 'done', station: isReclaimed ? 'reclaim' : 'print' },
    ] as const
    for (const [place, event] of happened.entries()) {
      const happenedAt = daysBefore(at, happened.length - place)
      const sentKey = `demo-${index}-${place}-of-the-ticket`
      await addLayerEvent(database, { ...event, layerId, happenedAt, sentKey }, { at })
    }
    const [wantedL, wantedA, wantedB] = DEMO_SHOP.inks.find(({ name }) => name === ink)?.lab ?? [
      50, 0, 0,
    ]
    const { lab, doubtDeltaE } = measuredColour(readings)
    const [seenL, seenA, seenB] = lab
    const check = { layerId, how: 'measured', readings, doubtDeltaE } as const
    const colours = { wantedL, wantedA, wantedB, seenL, seenA, seenB }
    await addColourCheck(database, { ...check, ...colours }, { at: daysBefore(at, 1) })
  }
}
