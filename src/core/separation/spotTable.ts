import { ciede2000 } from '../colour/ciede2000.ts'
import { demichelWeights } from '../colour/inkMixing.ts'
import { labFromXyz50 } from '../colour/lab.ts'
import type { Lab, Xyz } from '../colour/space.ts'
import { labFromSrgb } from '../colour/srgb.ts'
import { SOLID } from '../halftone/cellThresholds.ts'
import { type Mixer, mixerOf, nearestShares, weighedSquare } from './nearestShares.ts'
import type { Ink } from './plan.ts'
import { estimatedPrimaries } from './primaries.ts'

/** Shares of inks at the nodes of a grid over stored sRGB, and the solids themselves. */
export type SpotTable = Readonly<{
  inks: number
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
 * @source demichel, neugebauer, ink-over-ink, spot-inversion
 * @limits combinations of inks are estimates; colours beyond the inks' reach go to the nearest within
 */
export function spotTable(inks: readonly Ink[]): SpotTable {
  const primaries = estimatedPrimaries(inks)
  const mixer = mixerOf(primaries, { limit: COVERAGE_LIMIT })
  const starts = startsOf(primaries)
  const coarse = kept((node) => {
    const target = colourOf(node, COARSE_CELLS)
    return bestOf(startsNear(target, starts), { target, mixer })
  })
  const sharesAt = kept((node) => {
    const target = colourOf(node, CELLS)
    const between = blended(tetrahedron(storedOf(node, CELLS), COARSE_CELLS), coarse, inks.length)
    const fine = nearestShares(between, { target, mixer })
    // where the coarse grid lies astride two ways of making a colour, it is looked for anew
    return fine.cost > ASTRIDE
      ? bestOf([between, ...startsNear(target, starts)], { target, mixer })
      : withinLimit(fine.shares)
  })
  const solids = inks.map((_, at) => labFromXyz50(primaries[2 ** at] ?? [0, 0, 0]))
  return { inks: inks.length, sharesAt, solids }
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
  for (const { shares, lab } of starts) {
    const square = weighedSquare(lab, target)
    if (nearest.length === STARTS && square >= (nearest[STARTS - 1]?.square ?? 0)) continue
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
  const { inks, sharesAt, solids } = table
  if (red === 255 && green === 255 && blue === 255) {
    into.fill(0)
    return
  }
  const lab = labFromSrgb([red / 255, green / 255, blue / 255])
  const solid = solids.findIndex((own) => ciede2000(own, lab) < SAME_COLOUR)
  if (solid >= 0) {
    into.fill(0)
    into[solid] = SOLID
    return
  }
  const mixed = blended(tetrahedron([red, green, blue], CELLS), sharesAt, inks)
  for (let ink = 0; ink < inks; ink++) {
    const share = mixed[ink] ?? 0
    const whole = share < END_SHARE ? 0 : share > 1 - END_SHARE ? 1 : share
    into[ink] = Math.round(whole * SOLID)
  }
}

type Corner = Readonly<{ node: number; part: number }>

/** The four nodes about a colour: from the darkest along the axes, the farthest way first. */
function tetrahedron(colour: readonly [number, number, number], cells: number): readonly Corner[] {
  const strides = [(cells + 1) ** 2, cells + 1, 1]
  const axes = colour.map((value, axis) => {
    const at = (value * cells) / 255
    const cell = Math.min(cells - 1, Math.floor(at))
    return { cell, rest: at - cell, stride: strides[axis] ?? 1 }
  })
  let node = axes.reduce((sum, { cell, stride }) => sum + cell * stride, 0)
  const ordered = axes.toSorted((one, other) => other.rest - one.rest)
  const corners: Corner[] = [{ node, part: 1 - (ordered[0]?.rest ?? 0) }]
  ordered.forEach(({ rest, stride }, at) => {
    node += stride
    corners.push({ node, part: rest - (ordered[at + 1]?.rest ?? 0) })
  })
  return corners
}

function blended(
  corners: readonly Corner[],
  sharesAt: (node: number) => readonly number[],
  inks: number,
): readonly number[] {
  const mixed = Array.from({ length: inks }, () => 0)
  for (const { node, part } of corners) {
    if (part === 0) continue
    sharesAt(node).forEach((share, ink) => {
      mixed[ink] = (mixed[ink] ?? 0) + part * share
    })
  }
  return mixed
}
