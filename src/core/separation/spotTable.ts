import { ciede2000 } from '../colour/ciede2000.ts'
import { demichelWeights } from '../colour/inkMixing.ts'
import { labFromXyz50 } from '../colour/lab.ts'
import type { Lab, Xyz } from '../colour/space.ts'
import { labFromSrgb } from '../colour/srgb.ts'
import { SOLID } from '../halftone/cellThresholds.ts'
import { type Mixer, mixerOf, nearestShares, weighedSquares } from './nearestShares.ts'
import type { Ink } from './plan.ts'
import { estimatedPrimaries } from './primaries.ts'

/** Shares of inks at the nodes of a grid over stored sRGB, and the solids themselves. */
export type SpotTable = Readonly<{
  inks: number
  /** Steps of the grid along each side. */
  cells: number
  /** By the node's number, red slowest, blue fastest; each is worked out when it is first asked for. */
  sharesAt: (node: number) => readonly number[]
  solids: readonly Lab[]
}>

/** Steps of the grid along each side, and of the coarse one that a search begins from. */
const CELLS = 64
const COARSE_CELLS = 16

/** More ink than this at one place does not dry before the next screen. */
export const COVERAGE_LIMIT = 2.4

/**
 * How much of each ink makes a colour: at each node the shares whose mixture looks nearest. On a coarse
 * grid the best of several searches; the fine one begins between those, so that neighbours are alike.
 *
 * @param inks 1 … 6 in the order of printing, each with its colour
 * @param isCoarse the coarse grid alone, which is soon worked out: for looking from afar
 * @source demichel, neugebauer, ink-over-ink, spot-inversion
 * @limits combinations of inks are estimates; colours beyond the inks' reach go to the nearest within
 */
export function spotTable(
  inks: readonly Ink[],
  { isCoarse = false }: Readonly<{ isCoarse?: boolean }> = {},
): SpotTable {
  const primaries = estimatedPrimaries(inks)
  const mixer = mixerOf(primaries, { limit: COVERAGE_LIMIT })
  const starts = startsOf(primaries)
  const coarse = kept((node) => {
    const target = colourOf(node, COARSE_CELLS)
    return bestOf(startsNear(target, starts), { target, mixer })
  })
  const fine = kept((node) => {
    const target = colourOf(node, CELLS)
    const between = blended(tetrahedron(storedOf(node, CELLS), COARSE_CELLS), coarse, inks.length)
    const near = nearestShares(between, { target, mixer })
    // where the coarse grid lies astride two ways of making a colour, it is looked for anew
    return near.cost > ASTRIDE
      ? bestOf([between, ...startsNear(target, starts)], { target, mixer })
      : withinLimit(near.shares)
  })
  const solids = inks.map((_, at) => labFromXyz50(primaries[2 ** at] ?? [0, 0, 0]))
  const grid = isCoarse
    ? { cells: COARSE_CELLS, sharesAt: coarse }
    : { cells: CELLS, sharesAt: fine }
  return { inks: inks.length, ...grid, solids }
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

function startsOf(primaries: readonly Xyz[]): readonly Start[] {
  const inks = Math.log2(primaries.length)
  const side = (START_STEPS[inks] ?? 3) + 1
  return Array.from({ length: side ** inks }, (_, at) => {
    const shares = Array.from(
      { length: inks },
      (_share, ink) => (Math.floor(at / side ** ink) % side) / (side - 1),
    )
    const weights = demichelWeights(shares)
    const sum = (channel: 0 | 1 | 2): number =>
      primaries.reduce((all, xyz, place) => all + (weights[place] ?? 0) * xyz[channel], 0)
    return { shares, lab: labFromXyz50([sum(0), sum(1), sum(2)]) }
  }).filter(({ shares }) => shares.reduce((all, share) => all + share, 0) <= COVERAGE_LIMIT)
}

const STARTS = 3

function startsNear(target: Lab, starts: readonly Start[]): readonly (readonly number[])[] {
  const nearest: { shares: readonly number[]; square: number }[] = []
  const squareOf = weighedSquares(target)
  for (const { shares, lab } of starts) {
    const worst = nearest[STARTS - 1]?.square ?? Number.POSITIVE_INFINITY
    if ((lab[0] - target[0]) ** 2 >= worst) continue
    const square = squareOf(lab[0], lab[1], lab[2])
    if (square >= worst) continue
    const place = nearest.findIndex((one) => square < one.square)
    nearest.splice(place < 0 ? nearest.length : place, 0, { shares, square })
    nearest.length = Math.min(STARTS, nearest.length)
  }
  return nearest.map(({ shares }) => shares)
}

function bestOf(
  starts: readonly (readonly number[])[],
  of: Readonly<{ target: Lab; mixer: Mixer }>,
): readonly number[] {
  const found = starts.map((start) => nearestShares(start, of))
  const [best] = found.toSorted((one, other) => one.cost - other.cost)
  return withinLimit(best?.shares ?? [])
}

function withinLimit(shares: ArrayLike<number>): readonly number[] {
  const all = Array.from(shares)
  const sum = all.reduce((total, share) => total + share, 0)
  return sum <= COVERAGE_LIMIT ? all : all.map((share) => (share * COVERAGE_LIMIT) / sum)
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
}

/** The four nodes about a colour and what each counts for; one room, filled anew each time. */
type Corners = Readonly<{ nodes: Int32Array; parts: Float64Array }>
const CORNERS: Corners = { nodes: new Int32Array(4), parts: new Float64Array(4) }
const RESTS: Float64Array = new Float64Array(3)
const AXES: Int8Array = new Int8Array(3)

/** From the darkest along the axes, the farthest way first. */
function tetrahedron(colour: readonly [number, number, number], cells: number): Corners {
  const { nodes, parts } = CORNERS
  const side = cells + 1
  let node = 0
  for (let axis = 0; axis < 3; axis++) {
    const at = ((colour[axis] ?? 0) * cells) / 255
    const cell = Math.min(cells - 1, Math.floor(at))
    node = node * side + cell
    RESTS[axis] = at - cell
    // by their rests, the largest first; of equals the first axis
    let place = axis
    for (; place > 0 && (RESTS[AXES[place - 1] ?? 0] ?? 0) < at - cell; place--) {
      AXES[place] = AXES[place - 1] ?? 0
    }
    AXES[place] = axis
  }
  let before = 1
  for (let step = 0; step < 3; step++) {
    const axis = AXES[step] ?? 0
    const rest = RESTS[axis] ?? 0
    nodes[step] = node
    parts[step] = before - rest
    before = rest
    node += axis === 0 ? side ** 2 : axis === 1 ? side : 1
  }
  nodes[3] = node
  parts[3] = before
  return CORNERS
}

function blended(
  { nodes, parts }: Corners,
  sharesAt: (node: number) => readonly number[],
  inks: number,
): readonly number[] {
  // what a node's shares are may ask for corners itself
  const [n0 = 0, n1 = 0, n2 = 0, n3 = 0] = nodes
  const [p0 = 0, p1 = 0, p2 = 0, p3 = 0] = parts
  const mixed = Array.from({ length: inks }, () => 0)
  for (const [node, part] of [
    [n0, p0],
    [n1, p1],
    [n2, p2],
    [n3, p3],
  ] as const) {
    if (part === 0) continue
    const shares = sharesAt(node)
    for (let ink = 0; ink < inks; ink++) mixed[ink] = (mixed[ink] ?? 0) + part * (shares[ink] ?? 0)
  }
  return mixed
}
