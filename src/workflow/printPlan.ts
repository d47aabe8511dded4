import { fabricGeometry } from '../core/fabric/geometry.ts'
import { randomFrom } from '../core/halftone/blueNoise.ts'
import { type LayerTime, layerTime, usualDryMin } from '../core/print/drying.ts'
import { type EditionInk, editionInk, USUAL_POT_CM3, wetFilmUm } from '../core/print/editionInk.ts'
import { type InkRecipe, inkRecipe } from '../core/print/inkRecipe.ts'
import { type LayerOrder, layerOrder } from '../core/print/layerOrder.ts'
import { imageGrowthUm, snapOffNewtonPerCm, usualOffContactMm } from '../core/print/offContact.ts'
import { type PaperToBuy, paperToBuy } from '../core/print/paperToBuy.ts'
import { type CostLine, inkCost, type PrintCost, printCost } from '../core/print/printCost.ts'
import {
  type RegisterBudget,
  type RegisterShare,
  registerBudget,
  USUAL_SHARES,
} from '../core/print/registerBudget.ts'
import { type Squeegee, squeegeeFor } from '../core/print/squeegee.ts'
import { SPOILED_SHARE, sheetsToPrepare } from '../core/ticket/sheets.ts'
import { type Doubtful, mm, share, um } from '../core/units/quantity.ts'
import type {
  PlanAsked,
  PlanFacts,
  PlanFilm,
  PlanInk,
  PlanLayer,
  PlanScreen,
  PlanStock,
} from './printPlanFacts.ts'

export type Gap = Readonly<{
  offContactMm: number
  /** Somebody set it; else it is to begin with. */
  isSet: boolean
  /** Null where the film is larger than its screen allows, or there is none. */
  growthUm: number | null
  liftNewtonPerCm: number
  tensionNewtonPerCm: number
  isTensionMeasured: boolean
}>

export type Recipe = Omit<InkRecipe, 'parts'> &
  Readonly<{
    parts: readonly Readonly<{ name: string; grams: number }>[]
    /** Nine in ten mixtures are right within so much. Judged. */
    doubtDeltaE: number
    cost: number | null
  }>

export type LayerPlan = Readonly<{
  layer: PlanLayer
  gap: Gap | null
  wetFilmUm: Doubtful | null
  coveredCm2: number | null
  ink: EditionInk | null
  recipe: Recipe | null
  squeegee: Squeegee | null
  dryMin: number | null
  time: LayerTime | null
}>

export type PrintPlan = Readonly<{
  /** Prints wanted and proofs; null while nobody said how many. */
  wanted: number | null
  toPull: number | null
  spoiledShare: number
  shares: readonly RegisterShare[]
  register: RegisterBudget
  order: LayerOrder
  layers: readonly LayerPlan[]
  paper: PaperToBuy | null
  cost: PrintCost | null
}>

/** Of a stretched screen that nobody measured. Judged: fixed frames hold about 20. */
const USUAL_TENSION = 20
/** Emulsion over a mesh coated once on each side; judged, as for the dose. */
const USUAL_OVER_MESH_UM = 8
/** A sheet laid, pulled and put in the rack by hand. Judged. */
const USUAL_PULL_SEC = 90
/** A mixture by three bands, and inks whose colour is an estimate. Judged. */
const DOUBT = { oneInk: 1, mixture: 5, estimated: 4 }
/** Cover of a layer without a film, for the order alone. Judged. */
const UNSEEN_COVER = 0.3
const SEED = 20_260_914

/**
 * All that printing an edition takes, as far as it can be known by now.
 *
 * @throws RangeError where something asked is outside its range
 */
export function printPlan(facts: PlanFacts, asked: PlanAsked): PrintPlan {
  const { editionCount, layers, paper } = facts
  const spoiledShare = asked.spoiledShare ?? SPOILED_SHARE
  const wanted = editionCount === null ? null : editionCount + (asked.proofs ?? 0)
  const toPull =
    wanted === null || layers.length === 0
      ? null
      : sheetsToPrepare(wanted, { layers: layers.length, spoiledShare })
  const planned = layers.map((layer) => layerPlan(layer, { facts, asked, toPull }))
  const shares = sharesOf(asked)
  const order = layerOrder(
    layers.map(({ ink, film }) => ({
      lab: ink?.lab ?? [50, 0, 0],
      opacity: ink?.opacity ?? 0.5,
      coverShare: film?.coverShare ?? UNSEEN_COVER,
    })),
  )
  const print = asked.sheetMm ?? paper?.sizeMm ?? null
  const bought =
    toPull === null || print === null || paper === null
      ? null
      : paperToBuy(print, { from: paper.sizeMm, sheets: toPull, onShelf: paper.onShelf })
  return {
    wanted,
    toPull,
    spoiledShare,
    shares,
    register: registerBudget(shares, { biasMm: growthApart(planned), random: randomFrom(SEED) }),
    order,
    layers: planned,
    paper: bought,
    cost:
      editionCount === null
        ? null
        : printCost(costLines({ facts, asked, planned, bought }), { prints: editionCount }),
  }
}

/** Half of what one layer grows more than another: at each end of the image. */
function growthApart(layers: readonly LayerPlan[]): number {
  const grown = layers.flatMap(({ gap }) => gap?.growthUm ?? [])
  return grown.length === 0 ? 0 : (Math.max(...grown) - Math.min(...grown)) / 2000
}

/** Paper that did not rest in the room grows, or shrinks, one way during the run. */
function sharesOf({
  shares = USUAL_SHARES,
  paperRested = true,
}: PlanAsked): readonly RegisterShare[] {
  if (paperRested) return shares
  return shares.map((each) => (each.name === 'paper' ? { ...each, shape: 'one way' } : each))
}

type Around = Readonly<{ facts: PlanFacts; asked: PlanAsked; toPull: number | null }>

function layerPlan(layer: PlanLayer, { facts, asked, toPull }: Around): LayerPlan {
  const { film, screen } = layer
  const edgeShare = share(film?.edgeShare ?? 0)
  const reckoned = screen === null ? null : fabricGeometry(screen.weave)
  const fabric =
    reckoned === null
      ? null
      : { ...reckoned, thicknessUm: screen?.thicknessUm ?? reckoned.thicknessUm }
  const emulsionOverMeshUm = um(screen?.overMeshUm ?? USUAL_OVER_MESH_UM)
  const wet = fabric === null ? null : wetFilmUm(fabric, { emulsionOverMeshUm, edgeShare })
  const coveredCm2 =
    film === null ? null : (film.coverShare * film.sizeMm.widthMm * film.sizeMm.heightMm) / 100
  const ink =
    coveredCm2 === null || wet === null || toPull === null
      ? null
      : editionInk(
          { coveredCm2, wetFilmUm: wet },
          { sheets: toPull, potCm3: asked.potCm3 ?? USUAL_POT_CM3 },
        )
  const dryMin = asked.dryMin ?? (wet === null ? null : usualDryMin(wet.high))
  return {
    layer,
    gap: screen === null ? null : gapOf(screen, { film, asked }),
    wetFilmUm: wet,
    coveredCm2,
    ink,
    recipe: ink === null || layer.ink === null ? null : recipeFor(layer.ink, { ink, facts }),
    squeegee:
      film === null || screen === null
        ? null
        : squeegeeFor({
            imageWidthMm: film.sizeMm.widthMm,
            insideWidthMm: screen.insideMm.widthMm,
            threadsPerCm: screen.weave.threadsPerCm,
          }),
    dryMin,
    time:
      dryMin === null || toPull === null
        ? null
        : layerTime({
            sheets: toPull,
            pullSec: asked.pullSec ?? USUAL_PULL_SEC,
            dryMin,
            shelves: asked.shelves ?? null,
          }),
  }
}

/** The stroke goes along the frame's height, the image in its middle. */
function gapOf(
  { insideMm, tensionNewtonPerCm }: PlanScreen,
  { film, asked }: Readonly<{ film: PlanFilm | null; asked: PlanAsked }>,
): Gap {
  const clearSpanMm = mm(insideMm.heightMm)
  const tension = tensionNewtonPerCm ?? USUAL_TENSION
  const usual = usualOffContactMm({ clearSpanMm, tensionNewtonPerCm: tension })
  const offContactMm = asked.offContactMm ?? usual
  const marginMm = film === null ? null : (clearSpanMm - film.sizeMm.heightMm) / 2
  return {
    offContactMm,
    isSet: asked.offContactMm !== undefined,
    growthUm:
      marginMm === null || marginMm < 1
        ? null
        : imageGrowthUm(mm(offContactMm), { clearSpanMm, marginMm: mm(marginMm) }),
    liftNewtonPerCm: snapOffNewtonPerCm(mm(offContactMm), {
      clearSpanMm,
      fromEdgeMm: mm(clearSpanMm / 2),
      tensionNewtonPerCm: tension,
    }),
    tensionNewtonPerCm: tension,
    isTensionMeasured: tensionNewtonPerCm !== null,
  }
}

function recipeFor(
  wanted: PlanInk,
  { ink, facts: { stock } }: Readonly<{ ink: EditionInk; facts: PlanFacts }>,
): Recipe | null {
  const recipe = inkRecipe(wanted.lab, { stock, grams: Math.max(1, Math.ceil(ink.mixG)) })
  if (recipe === null) return null
  const weighed = wholeGrams(recipe.parts)
  const of = (id: string): PlanStock | undefined => stock.find((each) => each.id === id)
  const isEstimated = !wanted.isMeasured || recipe.parts.some(({ id }) => !of(id)?.isMeasured)
  const mixing = recipe.parts.length === 1 ? DOUBT.oneInk : DOUBT.mixture
  return {
    lab: recipe.lab,
    deltaE: recipe.deltaE,
    parts: weighed.map(({ id, grams }) => ({ name: of(id)?.name ?? '', grams })),
    doubtDeltaE: Math.hypot(mixing, isEstimated ? DOUBT.estimated : 0),
    cost: inkCost(
      weighed.map(({ id, grams }) => ({ grams, pricePerKg: of(id)?.pricePerKg ?? null })),
    ),
  }
}

/** As a scale shows them: the heaviest takes what rounding leaves. */
function wholeGrams(parts: InkRecipe['parts']): InkRecipe['parts'] {
  const sum = Math.round(parts.reduce((total, { grams }) => total + grams, 0))
  const rest = parts.slice(1).map((part) => ({ ...part, grams: Math.round(part.grams) }))
  const [first] = parts
  if (first === undefined) return parts
  const grams = sum - rest.reduce((total, part) => total + part.grams, 0)
  return [{ ...first, grams }, ...rest]
}

function costLines({
  facts: { paper },
  asked: { screenCost, filmCost },
  planned,
  bought,
}: Readonly<{
  facts: PlanFacts
  asked: PlanAsked
  planned: readonly LayerPlan[]
  bought: PaperToBuy | null
}>): readonly CostLine[] {
  const price = paper?.pricePerSheet ?? null
  const each = (cost: number | undefined): number | null =>
    cost === undefined ? null : cost * planned.length
  const inks = planned.map(({ recipe }) => recipe?.cost ?? null)
  const allInk = inks.reduce<number | null>(
    (sum, cost) => (sum === null || cost === null ? null : sum + cost),
    0,
  )
  return [
    { what: 'paper', cost: bought === null || price === null ? null : bought.wanted * price },
    { what: 'ink', cost: inks.length === 0 ? null : allInk },
    { what: 'screens', cost: each(screenCost) },
    { what: 'films', cost: each(filmCost) },
  ]
}
