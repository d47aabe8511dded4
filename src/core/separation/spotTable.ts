import { ciede2000 } from '../colour/ciede2000.ts'
import { demichelWeights } from '../colour/inkMixing.ts'
import { labFromXyz50 } from '../colour/lab.ts'
import type { Lab, Xyz } from '../colour/space.ts'
import { labFromSrgb } from '../colour/srgb.ts'
import { SOLID } from '../halftone/cellThresholds.ts'
import type { Ink } from './plan.ts'
import { estimatedPrimaries } from './primaries.ts'

/** Shares of inks at the nodes of a grid over stored sRGB, and the solids themselves. */
export type SpotTable = Readonly<{
  inks: number
  /** By the node's number, red slowest, blue fastest; each is worked out when it is first asked for. */
  sharesAt: (node: number) => readonly number[]
  solids: readonly Lab[]
}>

/** Nodes along each side of the grid. */
const SIDE = 17
const STEP = 255 / (SIDE - 1)

/** More ink than this at one place does not dry before the next screen. */
export const COVERAGE_LIMIT = 2.4

/** What a whole solid of ink more is worth, in squares of Lab's distance. */
const PRICE_OF_INK = 2

/**
 * How much of each ink makes a colour: at each node the shares whose mixture looks nearest, found by
 * changing one ink at a time; a little nearness is given up for less ink.
 *
 * @param inks 1 … 6 in the order of printing, each with its colour
 * @source demichel, neugebauer, ink-over-ink, spot-inversion
 * @limits combinations of inks are estimates; colours beyond the inks' reach go to the nearest within
 */
export function spotTable(inks: readonly Ink[]): SpotTable {
  const primaries = estimatedPrimaries(inks)
  const known = new Map<number, readonly number[]>()
  const sharesAt = (node: number): readonly number[] => {
    const found = known.get(node) ?? sharesFor(colourOf(node), primaries, inks.length)
    known.set(node, found)
    return found
  }
  const solids = inks.map((_, at) => labFromXyz50(primaries[2 ** at] ?? [0, 0, 0]))
  return { inks: inks.length, sharesAt, solids }
}

function colourOf(node: number): Lab {
  const part = (at: number): number => at / (SIDE - 1)
  const [red, green] = [Math.floor(node / SIDE ** 2), Math.floor(node / SIDE) % SIDE]
  return labFromSrgb([part(red), part(green), part(node % SIDE)])
}

const SWEEPS = 24
const SETTLED = 0.002

function sharesFor(target: Lab, primaries: readonly Xyz[], inks: number): readonly number[] {
  const starts = [
    Array.from({ length: inks }, () => 0),
    Array.from({ length: inks }, () => Math.min(0.5, COVERAGE_LIMIT / inks)),
  ]
  const found = starts.map((start) => settled(start, target, primaries))
  const [best] = found.toSorted((one, other) => one.cost - other.cost)
  return best?.shares ?? []
}

type Found = Readonly<{ shares: readonly number[]; cost: number }>

function settled(start: readonly number[], target: Lab, primaries: readonly Xyz[]): Found {
  const shares = [...start]
  let cost = Number.POSITIVE_INFINITY
  for (let sweep = 0; sweep < SWEEPS; sweep++) {
    let moved = 0
    for (let ink = 0; ink < shares.length; ink++) {
      const before = shares[ink] ?? 0
      const rest = shares.reduce((sum, share) => sum + share, 0) - before
      const ends = mixtureAtEnds(shares, ink, primaries)
      const room = Math.min(1, Math.max(0, COVERAGE_LIMIT - rest))
      const of = (share: number): number =>
        squaredDistance(between(ends, share), target) + PRICE_OF_INK * (rest + share)
      const share = leastBetween(of, room)
      shares[ink] = share
      cost = of(share)
      moved = Math.max(moved, Math.abs(share - before))
    }
    if (moved < SETTLED) break
  }
  return { shares, cost }
}

/** What is reflected without an ink and with its solid, the others as they are. */
function mixtureAtEnds(
  shares: readonly number[],
  ink: number,
  primaries: readonly Xyz[],
): readonly [Xyz, Xyz] {
  const others = demichelWeights(shares.map((share, at) => (at === ink ? 0 : share)))
  const [without, solid] = [
    [0, 0, 0],
    [0, 0, 0],
  ] as [[number, number, number], [number, number, number]]
  const bit = 2 ** ink
  others.forEach((weight, at) => {
    if (weight === 0) return
    const [clear, inked] = [primaries[at], primaries[at + bit]]
    for (const channel of [0, 1, 2] as const) {
      without[channel] += weight * (clear?.[channel] ?? 0)
      solid[channel] += weight * (inked?.[channel] ?? 0)
    }
  })
  return [without, solid]
}

function between([without, solid]: readonly [Xyz, Xyz], share: number): Xyz {
  return [
    without[0] + share * (solid[0] - without[0]),
    without[1] + share * (solid[1] - without[1]),
    without[2] + share * (solid[2] - without[2]),
  ]
}

function squaredDistance(xyz: Xyz, [l, a, b]: Lab): number {
  const [ownL, ownA, ownB] = labFromXyz50(xyz)
  return (ownL - l) ** 2 + (ownA - a) ** 2 + (ownB - b) ** 2
}

const GOLDEN = (Math.sqrt(5) - 1) / 2

/** Where a function is least from 0 to `high`, by golden sections, the two ends looked at too. */
function leastBetween(of: (share: number) => number, high: number): number {
  let [low, top] = [0, high]
  let [first, second] = [top - GOLDEN * (top - low), low + GOLDEN * (top - low)]
  let [atFirst, atSecond] = [of(first), of(second)]
  while (top - low > SETTLED / 2) {
    if (atFirst <= atSecond) {
      top = second
      second = first
      atSecond = atFirst
      first = top - GOLDEN * (top - low)
      atFirst = of(first)
    } else {
      low = first
      first = second
      atFirst = atSecond
      second = low + GOLDEN * (top - low)
      atSecond = of(second)
    }
  }
  const middle = (low + top) / 2
  const [best = middle] = [0, middle, high].toSorted((one, other) => of(one) - of(other))
  return best
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
  const corners = tetrahedron([red, green, blue]).map(({ node, part }) => ({
    shares: sharesAt(node),
    part,
  }))
  for (let ink = 0; ink < inks; ink++) {
    const share = corners.reduce((sum, { shares, part }) => sum + part * (shares[ink] ?? 0), 0)
    const whole = share < END_SHARE ? 0 : share > 1 - END_SHARE ? 1 : share
    into[ink] = Math.round(whole * SOLID)
  }
}

type Corner = Readonly<{ node: number; part: number }>

/** The four nodes about a colour: from the darkest along the axes, the farthest way first. */
function tetrahedron(colour: readonly [number, number, number]): readonly Corner[] {
  const strides = [SIDE ** 2, SIDE, 1]
  const axes = colour.map((value, axis) => {
    const cell = Math.min(SIDE - 2, Math.floor(value / STEP))
    return { cell, rest: value / STEP - cell, stride: strides[axis] ?? 1 }
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
