import { ciede2000 } from '../colour/ciede2000.ts'
import { labFromXyz50 } from '../colour/lab.ts'
import type { Lab, Xyz } from '../colour/space.ts'
import { labFromLevels, labFromSrgb } from '../colour/srgb.ts'
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
  sharesAt: (node: number) => Float64Array
  solids: readonly Lab[]
  /** How many inks may lie at one place. */
  most: number
  /** Room for one colour's shares. */
  mixed: Float64Array
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
  const withinLimit = (shares: Float64Array): Float64Array => scaledTo(limit, shares)
  const bestOf = (
    from: readonly ArrayLike<number>[],
    of: Readonly<{ target: Lab; mixer: Mixer }>,
  ): Float64Array => withinLimit(bestShares(from, of))
  const fewer = most < inks.length ? fewerInks(primaries, { most, limit }) : null
  const coarse = kept(COARSE_CELLS, (node) => {
    const target = colourOf(node, COARSE_CELLS)
    const free = bestOf(startsNear(target, starts), { target, mixer })
    return fewer === null ? free : withinLimit(fewer(free, target))
  })
  const between = new Float64Array(inks.length)
  const fine = kept(CELLS, (node) => {
    const target = colourOf(node, CELLS)
    blended(tetrahedron(storedOf(node, CELLS), COARSE_CELLS), coarse, between)
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
  return { inks: inks.length, ...grid, solids, most, mixed: new Float64Array(inks.length) }
}

/** So many squares off a mixture may be better made another way. */
const ASTRIDE = 0.6

function kept(cells: number, of: (node: number) => Float64Array): (node: number) => Float64Array {
  const known: (Float64Array | null)[] = new Array((cells + 1) ** 3).fill(null)
  return (node) => {
    const found = known[node] ?? of(node)
    known[node] = found
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

/** What searches begin from, the darkest first. */
type Starts = Readonly<{
  shares: readonly Float64Array[]
  l: Float64Array
  a: Float64Array
  b: Float64Array
}>

/** Steps of the shares that searches begin from, by the number of inks. */
const START_STEPS = [0, 20, 10, 8, 5, 4, 3]

function startsOf(primaries: readonly Xyz[], limit: number): Starts {
  const inks = Math.log2(primaries.length)
  const side = (START_STEPS[inks] ?? 3) + 1
  const mixer = mixerOf(primaries, { limit })
  const starts = Array.from({ length: side ** inks }, (_, at) =>
    Float64Array.from(
      { length: inks },
      (_share, ink) => (Math.floor(at / side ** ink) % side) / (side - 1),
    ),
  )
    .filter((shares) => shares.reduce((all, share) => all + share, 0) <= limit)
    .map((shares) => ({ shares, lab: mixedColour(shares, mixer) }))
    .toSorted((one, other) => one.lab[0] - other.lab[0])
  const part = (of: 0 | 1 | 2): Float64Array => Float64Array.from(starts, ({ lab }) => lab[of])
  return { shares: starts.map(({ shares }) => shares), l: part(0), a: part(1), b: part(2) }
}

const STARTS = 3
const NEAREST = { places: new Int32Array(STARTS), squares: new Float64Array(STARTS) }

/** The nearest few of them: from the colour's own lightness on both ways, as far as lightness alone is not too far off. */
function startsNear(target: Lab, { shares, l, a, b }: Starts): readonly Float64Array[] {
  const { places, squares } = NEAREST
  const squareOf = weighedSquares(target)
  places.fill(-1)
  squares.fill(Number.POSITIVE_INFINITY)
  const [lightness] = target
  let above = firstAbove(lightness, l)
  let below = above - 1
  const weigh = (start: number): boolean => {
    const least = squares[STARTS - 1] ?? 0
    if (start < 0 || start >= l.length || ((l[start] ?? 0) - lightness) ** 2 >= least) return false
    const square = squareOf(l[start] ?? 0, a[start] ?? 0, b[start] ?? 0)
    let place = STARTS - 1
    if (square >= least) return true
    for (; place > 0 && square < (squares[place - 1] ?? 0); place--) {
      squares[place] = squares[place - 1] ?? 0
      places[place] = places[place - 1] ?? 0
    }
    squares[place] = square
    places[place] = start
    return true
  }
  for (let goesOn = true; goesOn; ) {
    const isUp = weigh(above)
    const isDown = weigh(below)
    if (isUp) above += 1
    if (isDown) below -= 1
    goesOn = isUp || isDown
  }
  return Array.from(places).flatMap((place) => shares[place] ?? [])
}

/** Where the first start stands that is no darker than L. */
function firstAbove(lightness: number, l: Float64Array): number {
  let [low, high] = [0, l.length]
  while (low < high) {
    const middle = (low + high) >> 1
    if ((l[middle] ?? 0) < lightness) low = middle + 1
    else high = middle
  }
  return low
}

/** So few squares off, another search could only spare a little ink. */
const GOOD = 0.06

function bestShares(
  starts: readonly ArrayLike<number>[],
  of: Readonly<{ target: Lab; mixer: Mixer }>,
): Float64Array {
  let best = nearestShares(starts[0] ?? [], of)
  for (const start of starts.slice(1)) {
    if (best.cost < GOOD) break
    const found = nearestShares(start, of)
    if (found.cost < best.cost) best = found
  }
  return best.shares
}

function scaledTo(limit: number, shares: Float64Array): Float64Array {
  let sum = 0
  for (const share of shares) sum += share
  return sum <= limit ? shares : shares.map((share) => (share * limit) / sum)
}

/** Shares for a colour of no more than so many inks: the best of all such choices of them. */
function fewerInks(
  primaries: readonly Xyz[],
  { most, limit }: Readonly<{ most: number; limit: number }>,
): (free: Float64Array, target: Lab) => Float64Array {
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
export const END_SHARE = 0.015

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
  const { inks, cells, sharesAt, solids, mixed } = table
  if (red === 255 && green === 255 && blue === 255) {
    into.fill(0)
    return
  }
  const lab = labFromLevels(red, green, blue)
  const solid = solids.findIndex((own) => isNear(own, lab) && ciede2000(own, lab) < SAME_COLOUR)
  if (solid >= 0) {
    into.fill(0)
    into[solid] = SOLID
    return
  }
  blended(tetrahedron([red, green, blue], cells), sharesAt, mixed)
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
