import { type PlanAsked, type PrintPlanTold, planAsked } from '../../api/printPlan.ts'
import { ciede2000 } from '../../core/colour/ciede2000.ts'
import type { Lab } from '../../core/colour/space.ts'
import { colourVerdict } from '../../core/print/colourCheck.ts'
import { coatings } from '../../store/coatings.ts'
import { fabrics } from '../../store/fabrics.ts'
import { films } from '../../store/films.ts'
import { frames } from '../../store/frames.ts'
import { type Ink, inks } from '../../store/inks.ts'
import { currencyOf } from '../../store/money.ts'
import { type ColourCheck, colourChecksOf, printPlanOf } from '../../store/printPlans.ts'
import { screens } from '../../store/screens.ts'
import { theShop } from '../../store/shop.ts'
import { inkStocks, type PaperStock, papers } from '../../store/stock.ts'
import type { WholeTicket } from '../../store/tickets.ts'
import { type LayerPlan, printPlan } from '../../workflow/printPlan.ts'
import type { PlanFacts, PlanLayer, PlanScreen } from '../../workflow/printPlanFacts.ts'
import type { PlanWriting } from '../../workflow/printPlanNumbers.ts'
import { layerLine, planLines } from '../../workflow/printPlanWords.ts'
import type { Told } from '../http/route.ts'
import { dayText } from '../shop/days.ts'
import type { ShopService } from '../shop/shopService.ts'
import { usualScreen } from '../shop/usual.ts'
import { coversOf } from './planCover.ts'
import { layersTold } from './ticketAnswer.ts'
import { thingsFor } from './ticketWhole.ts'

/** What was settled about printing a ticket. */
async function askedOf({ store }: ShopService, { ticket }: WholeTicket): Promise<PlanAsked> {
  return planAsked.parse((await printPlanOf(store.database, ticket.id)) ?? {})
}

/**
 * A ticket's print plan as the shop stands now.
 *
 * @param units of its sentences; without them the shop's
 */
export async function planTold(
  service: ShopService,
  whole: WholeTicket,
  { units: wanted }: Readonly<{ units?: PlanWriting['units'] | undefined }> = {},
): Promise<Told<PrintPlanTold>> {
  const { store } = service
  const { database } = store
  const asked = await askedOf(service, whole)
  const shelf = await papers(database)
  const paper = paperFor(whole, { asked, shelf })
  const own = await theShop(database)
  const units = wanted ?? (own.units === 'inch' ? 'imperial' : 'metric')
  const writing = { units, currency: await currencyOf(database) }
  const facts: PlanFacts = {
    editionCount: whole.ticket.editionCount,
    layers: await planLayers(service, whole),
    stock: await stockOf(service),
    paper:
      paper === null
        ? null
        : { sizeMm: paper, onShelf: paper.sheets, pricePerSheet: paper.pricePerSheet },
  }
  const plan = printPlan(facts, asked)
  const ids = facts.layers.map(({ id }) => id)
  const idAt = (at: number): string => ids[at] ?? ''
  const checks = await colourChecksOf(database, ids)
  return {
    kind: 'print plan',
    demo: own.kind === 'demo',
    ...writing,
    asked: paper === null ? asked : { ...asked, paper: paper.id },
    lines: planLines(plan, { paperName: paper?.name ?? null, writing }),
    editionCount: facts.editionCount,
    wanted: plan.wanted,
    toPull: plan.toPull,
    spoiledShare: plan.spoiledShare,
    shares: plan.shares,
    register: plan.register,
    order: {
      layers: plan.order.order.map(idAt),
      isAsGiven: plan.order.isAsGiven,
      against: plan.order.against.map(({ first, second, why }) => ({
        first: idAt(first),
        second: idAt(second),
        why,
      })),
    },
    layers: plan.layers.map((each) => layerTold(each, { checks, writing })),
    paper:
      plan.paper === null || paper === null
        ? null
        : { name: paper.name, ...plan.paper, onShelf: paper.sheets },
    cost: plan.cost,
    papers: shelf.map(({ id, name }) => ({ id, name })),
  }
}

/** The paper that was settled; else the one of the shelf that the ticket names. */
function paperFor(
  { ticket }: WholeTicket,
  { asked, shelf }: Readonly<{ asked: PlanAsked; shelf: readonly PaperStock[] }>,
): PaperStock | null {
  const named = ticket.paper?.trim().toLowerCase() ?? ''
  return (
    shelf.find(({ id }) => id === asked.paper) ??
    shelf.find(({ name }) => name.trim().toLowerCase() === named) ??
    null
  )
}

function layerTold(
  each: LayerPlan,
  { checks, writing }: Readonly<{ checks: readonly ColourCheck[]; writing: PlanWriting }>,
): Told<PrintPlanTold['layers'][number]> {
  const { layer, ink, recipe, coveredCm2, gap, wetFilmUm, squeegee, dryMin, time } = each
  const { id, shortName, isPrinted, screen, film } = layer
  return {
    id,
    line: layerLine(each, writing),
    shortName,
    ink: layer.ink?.name ?? null,
    isPrinted,
    screen:
      screen === null
        ? null
        : {
            name: screen.name,
            isChosen: screen.isChosen,
            fabric: `${screen.weave.threadsPerCm}-${screen.weave.threadUm}`,
          },
    film:
      film === null || coveredCm2 === null
        ? null
        : { ...film.sizeMm, coverShare: film.coverShare, coveredCm2 },
    gap,
    wetFilmUm,
    inkToMix: ink,
    recipe:
      recipe === null
        ? null
        : { parts: recipe.parts, deltaE: recipe.deltaE, doubtDeltaE: recipe.doubtDeltaE },
    squeegee,
    dryMin,
    time,
    checks: checks.filter(({ layerId }) => layerId === id).map(checkTold),
  }
}

function checkTold(check: ColourCheck): Told<PrintPlanTold['layers'][number]['checks'][number]> {
  const { id, how, checkedAt, seenL, seenA, seenB, doubtDeltaE } = check
  const lab: Lab = [seenL, seenA, seenB]
  const wanted: Lab = [check.wantedL, check.wantedA, check.wantedB]
  const { verdict } = colourVerdict({ lab, doubtDeltaE }, { wanted })
  const deltaE = ciede2000(wanted, lab)
  return {
    id,
    on: dayText(checkedAt),
    how,
    lab: [seenL, seenA, seenB],
    deltaE,
    doubtDeltaE,
    verdict,
  }
}

async function planLayers(service: ShopService, whole: WholeTicket): Promise<readonly PlanLayer[]> {
  const { store, now } = service
  const { database } = store
  const told = layersTold(whole, await thingsFor(database, [whole]))
  const all = await films(database, { limit: 500 })
  const of = told.map(({ film }) => all.find(({ id }) => id === film?.id))
  const covers = await coversOf(
    store,
    of.filter((film) => film !== undefined),
    { at: now() },
  )
  const known = await inks(database)
  const screenFor = await screensOf(service)
  return whole.layers.map(({ id, shortName, inkId, screenId }, at) => {
    const film = of[at]
    const cover = covers.get(film?.id ?? '')
    const station = told[at]?.at ?? null
    const ink = known.find((each) => each.id === inkId)
    return {
      id,
      shortName,
      isPrinted: station === null || station === 'reclaim',
      ink: ink === undefined ? null : planInk(ink),
      film:
        film === undefined || cover === undefined
          ? null
          : { ...cover, sizeMm: { widthMm: film.widthMm ?? 0, heightMm: film.heightMm ?? 0 } },
      screen: screenFor(screenId),
    }
  })
}

function planInk({ name, labL, labA, labB, opacity, status }: Ink): NonNullable<PlanLayer['ink']> {
  return { name, lab: [labL, labA, labB], opacity, isMeasured: status === 'measured' }
}

/** The screen of an id, or where there is none the shop's usual one. */
async function screensOf(service: ShopService): Promise<(id: string | null) => PlanScreen | null> {
  const { database } = service.store
  const [allScreens, allFrames, allFabrics, coats] = [
    await screens(database),
    await frames(database),
    await fabrics(database),
    await coatings(database),
  ]
  const usual = usualScreen(await service.records())?.record.id ?? null
  return (id) => {
    const screen = allScreens.find((each) => each.id === (id ?? usual))
    const frame = allFrames.find((each) => each.id === screen?.frameId)
    const fabric = allFabrics.find((each) => each.id === screen?.fabricId)
    if (screen === undefined || frame === undefined || fabric === undefined) return null
    return {
      name: `screen ${screen.tag}`,
      isChosen: id !== null,
      weave: fabric,
      thicknessUm: fabric.thicknessUm,
      insideMm: { widthMm: frame.insideWidthMm, heightMm: frame.insideHeightMm },
      tensionNewtonPerCm: screen.tensionNewtonPerCm,
      overMeshUm: coats.find(({ screenId }) => screenId === screen.id)?.eomUm ?? null,
    }
  }
}

async function stockOf({ store }: ShopService): Promise<PlanFacts['stock']> {
  const known = await inks(store.database)
  return (await inkStocks(store.database)).flatMap(({ inkId, grams, pricePerKg }) => {
    const ink = known.find(({ id }) => id === inkId)
    if (ink === undefined) return []
    const { name, lab, isMeasured } = planInk(ink)
    return [{ id: inkId, name, lab, grams, pricePerKg, isMeasured }]
  })
}
