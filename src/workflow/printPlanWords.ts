import type { OrderReason } from '../core/print/layerOrder.ts'
import type { LayerPlan, PrintPlan } from './printPlan.ts'
import {
  areaText,
  capital,
  filmFigure,
  filmUnit,
  fineText,
  lengthText,
  listed,
  minutesText,
  moneyText,
  type PlanWriting,
  sideText,
  tenths,
  volumeFigure,
  volumeUnit,
  weightText,
} from './printPlanNumbers.ts'

/** A sentence of the plan with its numbers, and why it says so. */
export type PlanLine = Readonly<{ says: string; why: readonly string[] }>

const REASONS: Readonly<Record<OrderReason, (first: string, second: string) => string>> = {
  'lighter over darker': (first, second) =>
    `${second} is lighter and lets ${first} show through: it goes under it.`,
  'large over small': (first, second) =>
    `${second} covers more of the sheet than ${first}: large areas go first.`,
  'white ground': (first, second) => `${second} is a ground that hides ${first}: it goes first.`,
}

/** The whole print's sentences: order, register, paper, time and cost. */
export function planLines(
  plan: PrintPlan,
  { paperName, writing }: Readonly<{ paperName: string | null; writing: PlanWriting }>,
): readonly PlanLine[] {
  return [
    orderLine(plan),
    registerLine(plan, writing),
    ...sheetsLine(plan, paperName),
    ...timeLine(plan),
    ...costLine(plan, writing),
  ]
}

export function inkNameOf({ layer }: LayerPlan): string {
  return layer.ink?.name ?? layer.shortName
}

function orderLine({ order, layers }: PrintPlan): PlanLine {
  const name = (at: number): string => {
    const layer = layers[at]
    return layer === undefined ? '' : inkNameOf(layer)
  }
  const says = `${order.isAsGiven ? 'Print' : 'Better print'} ${order.order.map(name).join(', then ')}.`
  const why = order.against.map(({ first, second, why: reason }) =>
    REASONS[reason](name(first), name(second)),
  )
  const rule =
    'Light inks go before dark ones, large areas before small, a white ground before all: common practice. Let each dry before the next.'
  return { says, why: [...why, rule] }
}

function registerLine({ register, shares, layers }: PrintPlan, { units }: PlanWriting): PlanLine {
  const { sdMm, biasMm, trapMm, largest } = register
  const tenth = Math.ceil(10 * trapMm - 1e-9) / 10
  const fine = (lengthMm: number): string => fineText(lengthMm, units)
  const overlap = units === 'metric' ? `${tenth.toFixed(1)} mm` : fine(tenth)
  const grown = layers.flatMap(({ gap }) => gap?.growthUm ?? [])
  const apart = grown.length < 2 ? 0 : Math.max(...grown) - Math.min(...grown)
  return {
    says: `Let colours overlap by ${overlap}; ${largest.name} moves them most.`,
    why: [
      `${capital(listed(shares.map(({ name, sdMm: sd }) => `${name} ${fine(sd)}`)))}: together ${fine(sdMm)}, as the root of the sum of squares.`,
      `Nineteen prints in twenty lie within ${fine(trapMm)}. Of all that moves them ${Math.round(100 * largest.varianceShare)} parts in 100 are ${largest.name}.`,
      ...(apart < 1
        ? []
        : [
            `By off-contact one layer grows ${filmFigure(apart, units)} ${filmUnit(units)} more than another: half of it at each end.`,
          ]),
      ...(biasMm < 0.05
        ? []
        : [`${fine(biasMm)} of it go one way on all prints: move the sheet to meet it.`]),
      'The shares are judged, until the shop measures its own. Rest the paper in the room for a day, and cut all of it one way.',
    ],
  }
}

function sheetsLine(
  { toPull, wanted, spoiledShare, layers, paper }: PrintPlan,
  paperName: string | null,
): readonly PlanLine[] {
  if (toPull === null || wanted === null) {
    return [
      {
        says: 'Say how many prints are wanted: sheets, ink, time and cost follow from it.',
        why: ['The ink for each layer also wants its film, read, and a screen.'],
      },
    ]
  }
  const one = Math.round(1 / Math.max(spoiledShare, 1e-3))
  const sheets = `Begin with ${toPull} sheets`
  const bought =
    paper === null || paperName === null
      ? '.'
      : `: ${paper.wanted} of ${paperName}, ${paper.toBuy === 0 ? 'and all are there' : `${paper.toBuy} to buy`}.`
  return [
    {
      says: sheets + bought,
      why: [
        spoiledShare === 0
          ? `${wanted} are wanted, and none is to be spoiled.`
          : `${wanted} are wanted, and about one in ${one} is spoiled under each of ${layers.length} layers.`,
        ...(paper === null
          ? ['Choose a paper of the shelf to see how many sheets to buy.']
          : [
              `${paper.fromOne === 1 ? 'One print' : `${paper.fromOne} prints`} from each sheet${paper.isTurned ? ', turned' : ''}, all cut one way: paper grows across its grain.`,
            ]),
      ],
    },
  ]
}

function timeLine({ layers }: PrintPlan): readonly PlanLine[] {
  const times = layers.flatMap((each) => (each.time === null ? [] : [{ ...each, time: each.time }]))
  if (times.length === 0) return []
  const open = times.filter(({ layer }) => !layer.isPrinted)
  const all = (open.length === 0 ? times : open).reduce(
    (sum, { time }) => sum + time.untilDryMin,
    0,
  )
  const shelves = Math.max(
    ...(open.length === 0 ? times : open).map(({ time }) => time.shelvesWanted),
  )
  const what =
    open.length === 0
      ? 'All layers took'
      : open.length === 1
        ? 'The last layer takes'
        : `${open.length} layers take`
  return [
    {
      says: `${what} about ${minutesText(all)} from the first pull to dry, and ${shelves} shelves.`,
      why: [
        ...times.map((each) => {
          const { time, dryMin } = each
          const wait =
            time.waitMin < 1 ? '' : `, ${minutesText(time.waitMin)} of it waiting for the rack`
          return `${capital(inkNameOf(each))}: ${minutesText(time.pullMin)} at the press${wait}, each sheet ${minutesText(dryMin ?? 0)} in the rack, up to ${time.shelvesWanted} at once.`
        }),
        'A minute for each µm of wet film, water-based, at 20 °C without a fan: judged. Feel a sheet before the next layer.',
      ],
    },
  ]
}

function costLine({ cost, wanted }: PrintPlan, { currency }: PlanWriting): readonly PlanLine[] {
  const money = (amount: number): string => moneyText(amount, currency)
  if (cost === null || wanted === null) return []
  const known = cost.lines.flatMap(({ what, cost: price }) =>
    price === null ? [] : [`${what} ${money(price)}`],
  )
  const missing =
    cost.missing.length === 0 ? [] : [`Nobody said what ${listed(cost.missing)} cost.`]
  if (known.length === 0) return [{ says: 'What a print costs is not known yet.', why: missing }]
  return [
    {
      says: `A print costs ${money(cost.perPrint)}${cost.missing.length === 0 ? '' : ', as far as prices are known'}.`,
      why: [
        `${capital(listed(known))}: ${money(cost.total)} in all, over the prints of the edition.`,
        ...missing,
        `${currency === null ? 'In the shop’s money; spoils' : 'Spoils'} and leftover ink are in it, hours of work are not.`,
      ],
    },
  ]
}

/** One layer's sentence: ink, gap, drying; and all that it rests on. */
export function layerLine(each: LayerPlan, writing: PlanWriting): PlanLine {
  const { layer, ink, gap, dryMin } = each
  const { units } = writing
  const name = capital(inkNameOf(each))
  const parts = [
    ...(ink === null
      ? []
      : [`${layer.isPrinted ? 'about' : 'mix'} ${weightText(Math.ceil(ink.mixG), units)}`]),
    ...(gap === null ? [] : [`${lengthText(gap.offContactMm, units)} off the paper`]),
    ...(dryMin === null ? [] : [`dry in ${minutesText(dryMin)}`]),
  ]
  const printed = layer.isPrinted ? ', printed' : ''
  return {
    says:
      parts.length === 0
        ? `${name}${printed}: nothing is known yet but its ink.`
        : `${name}${printed}: ${parts.join(', ')}.`,
    why: [
      ...inkWhy(each, writing),
      ...recipeWhy(each, writing),
      ...gapWhy(each, writing),
      ...squeegeeWhy(each, writing),
    ],
  }
}

function inkWhy(
  { layer, ink, coveredCm2, wetFilmUm }: LayerPlan,
  { units }: PlanWriting,
): readonly string[] {
  const { film, screen } = layer
  if (wetFilmUm === null || screen === null)
    return ['Choose a screen, and the ink it lays down is reckoned.']
  const fabric = `${screen.name}${screen.isChosen || layer.isPrinted ? '' : ', the usual one until one is chosen'}`
  const laid = `Through ${screen.weave.threadsPerCm}-${screen.weave.threadUm} (${fabric}) lie ${filmFigure(wetFilmUm.low, units)} to ${filmFigure(wetFilmUm.high, units)} ${filmUnit(units)} of wet ink: by what the fabric holds, and by experience.`
  if (film === null || coveredCm2 === null)
    return [laid, 'Its film is not read yet: cover and ink follow from it.']
  const covers = `Its film covers ${areaText(coveredCm2, units)}, ${Math.round(100 * film.coverShare)} parts in 100 of its sheet: counted on the film.`
  if (ink === null) return [laid, covers]
  const { onPaperCm3, potCm3, leftG } = ink
  return [
    laid,
    covers,
    `${volumeFigure(onPaperCm3.low, units)} to ${volumeFigure(onPaperCm3.high, units)} ${volumeUnit(units)} go on the paper, and ${volumeFigure(potCm3, units)} ${volumeUnit(units)} must stand before the squeegee. About ${weightText(leftG, units)} will be left: label them.`,
  ]
}

function recipeWhy({ recipe, ink }: LayerPlan, { units }: PlanWriting): readonly string[] {
  if (ink === null) return []
  if (recipe === null) return ['The inks on the shelf are not counted, or do not reach: no recipe.']
  const { parts, deltaE, doubtDeltaE } = recipe
  const weighed = listed(parts.map(({ name, grams }) => `${weightText(grams, units)} ${name}`))
  return parts.length === 1
    ? [`From the shelf: ${weighed}, as it is.`]
    : [
        `By weight: ${weighed}. Expected ${tenths(deltaE)} from the colour wanted (CIEDE2000), give or take ${Math.round(doubtDeltaE)}: draw a sample down first.`,
      ]
}

function gapWhy({ gap }: LayerPlan, { units }: PlanWriting): readonly string[] {
  if (gap === null) return []
  const { offContactMm, isSet, growthUm, liftNewtonPerCm, tensionNewtonPerCm, isTensionMeasured } =
    gap
  const why = isSet ? 'as set' : 'to begin with, after the one published setting'
  return [
    `${lengthText(offContactMm, units)} off the paper, ${why}: the fabric lifts with ${liftNewtonPerCm.toFixed(2)} N on each cm in the middle, at ${tenths(tensionNewtonPerCm)} N/cm${isTensionMeasured ? '' : ' (judged: measure it)'}.`,
    growthUm === null
      ? 'How much the image grows is known once its film lies inside the frame.'
      : `So the image grows by ${filmFigure(growthUm, units)} ${filmUnit(units)} along the stroke.`,
  ]
}

function squeegeeWhy({ squeegee }: LayerPlan, { units }: PlanWriting): readonly string[] {
  if (squeegee === null) return []
  const { widthMm, hardnessShore, angleDeg, shortMm } = squeegee
  const blade = `A blade of ${sideText(widthMm, units)}, ${hardnessShore.low} to ${hardnessShore.high} Shore, at about ${angleDeg} degrees: common practice.`
  return shortMm === 0
    ? [blade]
    : [`${blade} It is ${sideText(shortMm, units)} too wide for the frame: take a wider screen.`]
}
