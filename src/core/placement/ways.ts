/**
 * How one rectangle lies to another, one bit each: straight beside it, or across a corner of it
 * with most of the gap along one axis (wide: along x).
 */
export const WAY = {
  left: 1,
  right: 2,
  above: 4,
  below: 8,
  leftAboveWide: 16,
  leftBelowWide: 32,
  rightAboveWide: 64,
  rightBelowWide: 128,
  leftAboveHigh: 256,
  rightAboveHigh: 512,
  leftBelowHigh: 1024,
  rightBelowHigh: 2048,
} as const

/** A set of ways. */
export type Ways = number

export const STRAIGHT: Ways = WAY.left | WAY.right | WAY.above | WAY.below
export const WIDE: Ways =
  WAY.leftAboveWide | WAY.leftBelowWide | WAY.rightAboveWide | WAY.rightBelowWide
export const HIGH: Ways =
  WAY.leftAboveHigh | WAY.rightAboveHigh | WAY.leftBelowHigh | WAY.rightBelowHigh
export const ALL_WAYS: Ways = STRAIGHT | WIDE | HIGH
export const CORNERS: readonly Ways[] = bitsOf(WIDE | HIGH)

export const LEFT_OF: Ways =
  WAY.left | WAY.leftAboveWide | WAY.leftBelowWide | WAY.leftAboveHigh | WAY.leftBelowHigh
export const RIGHT_OF: Ways =
  WAY.right | WAY.rightAboveWide | WAY.rightBelowWide | WAY.rightAboveHigh | WAY.rightBelowHigh
export const ABOVE_OF: Ways =
  WAY.above | WAY.leftAboveWide | WAY.rightAboveWide | WAY.leftAboveHigh | WAY.rightAboveHigh
export const BELOW_OF: Ways =
  WAY.below | WAY.leftBelowWide | WAY.rightBelowWide | WAY.leftBelowHigh | WAY.rightBelowHigh

/** Ways that have most of the gap on one side. */
const SIDES: readonly Ways[] = [
  WAY.left | WAY.leftAboveWide | WAY.leftBelowWide,
  WAY.right | WAY.rightAboveWide | WAY.rightBelowWide,
  WAY.above | WAY.leftAboveHigh | WAY.rightAboveHigh,
  WAY.below | WAY.leftBelowHigh | WAY.rightBelowHigh,
]

/** What a set of ways is told apart into: first by the side, then each by itself. */
export function branchesOf(ways: Ways): readonly Ways[] {
  const sides = SIDES.map((side) => side & ways).filter((side) => side !== 0)
  return sides.length > 1 ? sides : bitsOf(ways)
}

export function isOne(ways: Ways): boolean {
  return (ways & (ways - 1)) === 0
}

export function countOf(ways: Ways): number {
  let count = 0
  for (let left = ways; left !== 0; left &= left - 1) count += 1
  return count
}

function bitsOf(ways: Ways): readonly Ways[] {
  const bits: Ways[] = []
  for (let left = ways; left !== 0; left &= left - 1) bits.push(left & -left)
  return bits
}
