import { ciede2000 } from '../colour/ciede2000.ts'
import { labFromXyz50 } from '../colour/lab.ts'
import type { Lab, Xyz } from '../colour/space.ts'
import { labFromSrgb } from '../colour/srgb.ts'
import { SOLID } from '../halftone/solid.ts'
import { COVERAGE_LIMIT } from './inkLimit.ts'
import { type Mixer, mixedColour, mixerOf, nearestShares, weighedSquares } from './nearestShares.ts'
import type { Ink, InkLimits } from './plan.ts'
import { estimatedPrimaries } from './primaries.ts'
import { blended, tetrahedron } from './tetrahedron.ts'

/** Shares of inks at the nodes of a grid over stored sRGB, and the solids themselves. */
export type SpotTable = Readonly<{
  inks: number
  /** Steps of the grid along each side. */
  cells: number
  /** By the node's number, red slowest, blue fastest; each is worked out when it is first asked for. */
  sharesAt: (node: number) => readonly number[]
  solids: readonly Lab[]
  /** How many inks may lie at one place. */
  most: number
}>

/** Steps of the grid along each side, and of the coarse one that a search begins from. */
const CELLS = 64
const COARSE_CELLS = 16

/**
 * How much of each ink makes a colour: at each node the shares whose mixture looks nearest. On a coarse
 * grid the best of several searches; the fine one begins between those, so that neighbours are alike.
 *
 * @param inks 1 … 6 in the order of printing, each with its colour
 * @param limits left out: what dries
 * @param isCoarse the coarse grid alone, which is soon worked out: for looking from afar
 * @source demichel, neugebauer, ink-over-ink, spot-inversion
 * @limits combinations of inks are estimates; colours beyond the inks' reach go to the nearest within
 */
export function spotTable(
  inks: readonly Ink[],
  {
    isCoarse = false,
    limits = null,
  }: Readonly<{ isCoarse?: boolean; limits?: InkLimits | null }> = {},
): SpotTable {
  const primaries = estimatedPrimaries(inks)
  const limit = Math.min(COVERAGE_LIMIT, limits?.coverage ?? COVERAGE_LIMIT)
  const most = Math.min(inks.length, limits?.inks ?? inks.length)
  const mixer = mixerOf(primaries, { limit })
  const starts = startsOf(primaries, limit)
  const withinLimit = (shares: ArrayLike<number>): readonly number[] => scaledTo(limit, shares)
  const bestOf = (
    from: readonly (readonly number[])[],
    of: Readonly<{ target: Lab; mixer: Mixer }>,
  ): readonly number[] => withinLimit(bestShares(from, of))
  const fewer = most < inks.length ? fewerInks(primaries, { most, limit }) : null
  const coarse = kept((node) => {
    const target = colourOf(node, COARSE_CELLS)
    const free = bestOf(startsNear(target, starts), { target, mixer })
    return fewer === null ? free : withinLimit(fewer(free, target))
  })
  const fine = kept((node) => {
    const target = colourOf(node, CELLS)
    const between = blended(tetrahedron(storedOf(node, CELLS), COARSE_CELLS), coarse, inks.length)
    const near = nearestShares(between, { target, mixer })
    // where the coarse grid lies astride two ways of making a colour, it is looked for anew
    const free =
      near.cost > ASTRIDE
        ? bestOf([between, ...startsNear(target, starts)], { target, mixer })
        : withinLimit(near.shares)
    return fewer === null ? free : withinLimit(fewer(free, target))
  })
  const solids = inks.map((_, at) => labFromXyz50(primaries[2 ** at] ?? [0, 0, 0]))
  const grid = isCoarse
    ? { cells: COARSE_CELLS, sharesAt: coarse }
    : { cells: CELLS, sharesAt: fine }
  return { inks: inks.length, ...grid, solids, most }
}

/** So many squares off a mixture may be better made another way. */
const ASTRIDE = 0.6

function kept(of: (node: number) => readonly number[]): (node: number) => readonly number[] {
  const known = new Map<number, readonly number[]>()
  return (node) => {
    const found = known.get(node) ?? of(node)
    known.set(node, found)
    return found
  }
}

function storedOf(node: number, cells: number): readonly [number, number, number] {
  const side = cells + 1
  const part = (at: number): number => (255 * at) / cells
  return [
    part(Math.floor(node / side ** 2)),
    part(Math.floor(node / side) % side),
    part(node % side),
  ]
}

function colourOf(node: number, cells: number): Lab {
  const [red, green, blue] = storedOf(node, cells)
  return labFromSrgb([red / 255, green / 255, blue / 255])
}

type Start = Readonly<{ shares: readonly number[]; lab: Lab }>

/** Steps of the shares that searches begin from, by the number of inks. */
const START_STEPS = [0, 20, 10, 8, 5, 4, 3]

/** The darkest first. */
function startsOf(primaries: readonly Xyz[], limit: number): readonly Start[] {
  const inks = Math.log2(primaries.length)
  const side = (START_STEPS[inks] ?? 3) + 1
  const mixer = mixerOf(primaries, { limit })
  return Array.from({ length: side ** inks }, (_, at) => {
    const shares = Array.from(
      { length: inks },
      (_share, ink) => (Math.floor(at / side ** ink) % side) / (side - 1),
    )
    return { shares, lab: mixedColour(Float64Array.from(shares), mixer) }
  })
    .filter(({ shares }) => shares.reduce((all, share) => all + share, 0) <= limit)
    .toSorted((one, other) => one.lab[0] - other.lab[0])
}

const STARTS = 3

function startsNear(target: Lab, starts: readonly Start[]): readonly (readonly number[])[] {
  const nearest: { shares: readonly number[]; square: number }[] = []
  const squareOf = weighedSquares(target)
  const weigh = ({ shares, lab }: Start): void => {
    const square = squareOf(lab[0], lab[1], lab[2])
    if (square >= (nearest[STARTS - 1]?.square ?? Number.POSITIVE_INFINITY)) return
    const place = nearest.findIndex((one) => square < one.square)
    nearest.splice(place < 0 ? nearest.length : place, 0, { shares, square })
    nearest.length = Math.min(STARTS, nearest.length)
  }
  // from the colour's own lightness on both ways, as far as lightness alone is not too far off
  const reaches = (start: Start | undefined): start is Start =>
    start !== undefined &&
    (start.lab[0] - target[0]) ** 2 < (nearest[STARTS - 1]?.square ?? Number.POSITIVE_INFINITY)
  let above = firstAbove(target[0], starts)
  let below = above - 1
  for (let goesOn = true; goesOn; ) {
    const [up, down] = [starts[above], starts[below]]
    goesOn = false
    if (reaches(up)) {
      weigh(up)
      above += 1
      goesOn = true
    }
    if (reaches(down)) {
      weigh(down)
      below -= 1
      goesOn = true
    }
  }
  return nearest.map(({ shares }) => shares)
}

/** Where the first start stands that is no darker than L. */
function firstAbove(lightness: number, starts: readonly Start[]): number {
  let [low, high] = [0, starts.length]
  while (low < high) {
    const middle = (low + high) >> 1
    if ((starts[middle]?.lab[0] ?? 0) < lightness) low = middle + 1
    else high = middle
  }
  return low
}

function bestShares(
  starts: readonly (readonly number[])[],
  of: Readonly<{ target: Lab; mixer: Mixer }>,
): ArrayLike<number> {
  const found = starts.map((start) => nearestShares(start, of))
  const [best] = found.toSorted((one, other) => one.cost - other.cost)
  return best?.shares ?? []
}

function scaledTo(limit: number, shares: ArrayLike<number>): readonly number[] {
  const all = Array.from(shares)
  const sum = all.reduce((total, share) => total + share, 0)
  return sum <= limit ? all : all.map((share) => (share * limit) / sum)
}

/** Shares for a colour of no more than so many inks: the best of all such choices of them. */
function fewerInks(
  primaries: readonly Xyz[],
  { most, limit }: Readonly<{ most: number; limit: number }>,
): (free: readonly number[], target: Lab) => readonly number[] {
  const inks = Math.log2(primaries.length)
  const choices = Array.from({ length: 2 ** inks }, (_, bits) =>
    Array.from({ length: inks }, (_ink, ink) => ink).filter((ink) => (bits >> ink) % 2 === 1),
  ).filter((chosen) => chosen.length === most)
  const mixers = choices.map((chosen) => {
    const own = Array.from({ length: 2 ** most }, (_, bits) =>
      chosen.reduce((sum, ink, at) => sum + ((bits >> at) % 2 === 1 ? 2 ** ink : 0), 0),
    )
    const colours = own.map((combination): Xyz => primaries[combination] ?? [0, 0, 0])
    return { chosen, mixer: mixerOf(colours, { limit }) }
  })
  return (free, target) => {
    if (free.filter((share) => share >= END_SHARE).length <= most) return free
    const found = mixers.map(({ chosen, mixer }) => {
      const start = chosen.map((ink) => free[ink] ?? 0)
      return { chosen, ...nearestShares(start, { target, mixer }) }
    })
    const best = found.reduce((one, other) => (other.cost < one.cost ? other : one))
    return free.map((_, ink) => best.shares[best.chosen.indexOf(ink)] ?? 0)
  }
}

/** A colour this near to a solid is the solid. */
const SAME_COLOUR = 1.5
/** Colours farther apart than this along L, a or b are never the same. */
const FAR = 15

function isNear(one: Lab, other: Lab): boolean {
  return (
    Math.abs(one[0] - other[0]) < FAR &&
    Math.abs(one[1] - other[1]) < FAR &&
    Math.abs(one[2] - other[2]) < FAR
  )
}

/** Shares this near to nothing or to all are that: neither specks nor pinholes. */
const END_SHARE = 0.015

/**
 * Tones of the inks for a stored sRGB colour, 0 … 255: between the grid's nodes by tetrahedra, so
 * that greys stay on their diagonal.
 *
 * @param into one tone an ink, 0 … SOLID
 */
export function spotTones(
  table: SpotTable,
  [red, green, blue]: readonly [number, number, number],
  into: Uint16Array,
): void {
  const { inks, cells, sharesAt, solids } = table
  if (red === 255 && green === 255 && blue === 255) {
    into.fill(0)
    return
  }
  const lab = labFromSrgb([red / 255, green / 255, blue / 255])
  const solid = solids.findIndex((own) => isNear(own, lab) && ciede2000(own, lab) < SAME_COLOUR)
  if (solid >= 0) {
    into.fill(0)
    into[solid] = SOLID
    return
  }
  const mixed = blended(tetrahedron([red, green, blue], cells), sharesAt, inks)
  for (let ink = 0; ink < inks; ink++) {
    const share = mixed[ink] ?? 0
    const whole = share < END_SHARE ? 0 : share > 1 - END_SHARE ? 1 : share
    into[ink] = Math.round(whole * SOLID)
  }
  if (table.most < inks) dropLeast(into, table.most)
}

/** Between nodes of other inks more may come together than may lie there: the least of them goes. */
function dropLeast(into: Uint16Array, most: number): void {
  const kept = into.toSorted()[into.length - most] ?? 0
  let left = most
  for (let ink = 0; ink < into.length; ink++) if ((into[ink] ?? 0) > kept) left -= 1
  for (let ink = 0; ink < into.length; ink++) {
    const tone = into[ink] ?? 0
    if (tone > kept || (tone === kept && left-- > 0)) continue
    into[ink] = 0
  }
}
