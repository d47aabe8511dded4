import type { Lab } from '../colour/space.ts'

/** What of a layer decides where it goes. */
export type OrderedLayer = Readonly<{
  lab: Lab
  /** 0: what lies under it shows; 1: it hides that. */
  opacity: number
  /** Of the sheet. */
  coverShare: number
}>

/** Why a layer should not go before another. */
export type OrderReason = 'lighter over darker' | 'large over small' | 'white ground'

export type LayerOrder = Readonly<{
  /** The places of the layers as given, from 0, in the order to print them. */
  order: readonly number[]
  /** Nothing is gained by changing what was given. */
  isAsGiven: boolean
  /** Pairs that stand the wrong way round as given: `first` goes before `second`, and should not. */
  against: readonly Readonly<{ first: number; second: number; why: OrderReason }>[]
}>

/** An ink this light that hides what is under it is laid as a ground. Judged. */
const WHITE = { lightness: 85, opacity: 0.7 }
/** A difference of the whole sheet's cover weighs like so many steps of lightness. Judged. */
const COVER_WEIGHS = 20
/** Less than this is not worth a change. Judged. */
const WORTH = 5
const MOST_LAYERS = 10

/**
 * The order to print layers in: a white ground first, then light before dark, and large areas
 * before small ones, as far as an ink does not hide what it lies on.
 *
 * @param layers in the order given, at most 10; more are left as they are
 * @source layer-order-practice
 * @limits colours meant to show through each other in another order are the printer's to decide
 */
export function layerOrder(layers: readonly OrderedLayer[]): LayerOrder {
  const given = layers.map((_, at) => at)
  const against = given.flatMap((first) =>
    given.slice(first + 1).flatMap((second) => {
      const [a, b] = [layers[first], layers[second]]
      if (a === undefined || b === undefined) return []
      const { cost, why } = before(a, b)
      return cost - before(b, a).cost < WORTH ? [] : [{ first, second, why }]
    }),
  )
  if (layers.length > MOST_LAYERS || against.length === 0) {
    return { order: given, isAsGiven: true, against: [] }
  }
  return { order: cheapestOrder(layers), isAsGiven: false, against }
}

/** What is lost by printing one layer before another, and why. */
function before(
  under: OrderedLayer,
  over: OrderedLayer,
): Readonly<{ cost: number; why: OrderReason }> {
  if (isGround(over) && !isGround(under)) return { cost: 200, why: 'white ground' }
  if (isGround(under)) return { cost: 0, why: 'white ground' }
  const lighter = Math.max(0, over.lab[0] - under.lab[0]) * (1.2 - over.opacity)
  const larger = Math.max(0, over.coverShare - under.coverShare) * COVER_WEIGHS
  return {
    cost: lighter + larger,
    why: lighter >= larger ? 'lighter over darker' : 'large over small',
  }
}

function isGround({ lab, opacity }: OrderedLayer): boolean {
  return lab[0] >= WHITE.lightness && opacity >= WHITE.opacity
}

/** Of all orders the one that loses least: the best way to each set of layers already printed. */
function cheapestOrder(layers: readonly OrderedLayer[]): readonly number[] {
  type Way = Readonly<{ cost: number; order: readonly number[] }>
  const best = new Map<number, Way>([[0, { cost: 0, order: [] }]])
  const all = 2 ** layers.length - 1
  for (let set = 0; set < all; set++) {
    const way = best.get(set)
    if (way === undefined) continue
    layers.forEach((next, at) => {
      const bit = 2 ** at
      if (Math.floor(set / bit) % 2 === 1) return
      const added = way.order.reduce((sum, under) => {
        const lower = layers[under]
        return sum + (lower === undefined ? 0 : before(lower, next).cost)
      }, 0)
      const cost = way.cost + added
      const there = best.get(set + bit)
      if (there === undefined || cost < there.cost - 1e-9) {
        best.set(set + bit, { cost, order: [...way.order, at] })
      }
    })
  }
  return best.get(all)?.order ?? []
}
