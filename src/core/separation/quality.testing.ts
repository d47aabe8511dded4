import { ciede2000 } from '../colour/ciede2000.ts'
import { demichelWeights } from '../colour/inkMixing.ts'
import { labFromXyz50 } from '../colour/lab.ts'
import type { Lab, Xyz } from '../colour/space.ts'
import { labFromSrgb } from '../colour/srgb.ts'
import { SOLID } from '../halftone/solid.ts'
import { COVERAGE_LIMIT } from './inkLimit.ts'
import type { Ink } from './plan.ts'
import { estimatedPrimaries } from './primaries.ts'
import { spotTable, spotTones } from './spotTable.ts'
import type { TestPicture } from './testPictures.testing.ts'

export type Quality = Readonly<{ mean: number; p95: number; bestMean: number; bestP95: number }>

const ink = (name: string, lab: Lab, opacity: number): Ink => ({
  name,
  lab,
  opacity,
  angleDeg: null,
})
const YELLOW = ink('yellow', [86, 2, 84], 0.2)
const RED = ink('red', [50, 64, 36], 0.3)
const BLUE = ink('blue', [36, 4, -46], 0.3)
const BLACK = ink('black', [17, 0, 0], 0.9)

/** Inks as a shop has them. */
export const STOCKS: Readonly<Record<'three' | 'four' | 'six', readonly Ink[]>> = {
  three: [RED, BLUE, BLACK],
  four: [YELLOW, RED, BLUE, BLACK],
  six: [
    YELLOW,
    ink('ochre', [62, 18, 50], 0.5),
    RED,
    ink('green', [48, -44, 26], 0.3),
    BLUE,
    BLACK,
  ],
}

/** Nobody sees less: where the best is next to nothing, a tenth of it is less than nothing. */
const UNSEEN = 0.5

/** Whether mean and 95th percentile are no more than a tenth over the best. */
export function withinTenPercent({ mean, p95, bestMean, bestP95 }: Quality): boolean {
  return (
    mean <= bestMean + Math.max(UNSEEN, bestMean / 10) &&
    p95 <= bestP95 + Math.max(UNSEEN, bestP95 / 10)
  )
}

/** The colour of shares by Demichel's weights over the combinations: what a print is forecast as. */
function printed(shares: readonly number[], primaries: readonly Xyz[]): Lab {
  const weights = demichelWeights(shares)
  const xyz: [number, number, number] = [0, 0, 0]
  primaries.forEach((primary, at) => {
    for (const channel of [0, 1, 2] as const) xyz[channel] += (weights[at] ?? 0) * primary[channel]
  })
  return labFromXyz50(xyz)
}

/** Every mixture on a grid of shares that is not too much ink. */
function gridOf(inks: readonly Ink[], steps: number): readonly Lab[] {
  const primaries = estimatedPrimaries(inks)
  const labs: Lab[] = []
  for (let at = 0; at < (steps + 1) ** inks.length; at++) {
    const shares = inks.map((_, ink) => (Math.floor(at / (steps + 1) ** ink) % (steps + 1)) / steps)
    if (shares.reduce((sum, share) => sum + share, 0) > COVERAGE_LIMIT + 1e-9) continue
    labs.push(printed(shares, primaries))
  }
  return labs
}

/** How far the nearest mixture of a grid is: looked for among those that are near in Lab. */
function bestOn(grid: readonly Lab[], target: Lab): number {
  const far = grid.map(
    ([l, a, b]) => (l - target[0]) ** 2 + (a - target[1]) ** 2 + (b - target[2]) ** 2,
  )
  // differences shrink up to fivefold among strong colours, and no more
  const least = Math.min(...far)
  let best = Number.POSITIVE_INFINITY
  grid.forEach((lab, at) => {
    if ((far[at] ?? 0) > 30 * least + 25) return
    best = Math.min(best, ciede2000(lab, target))
  })
  return best
}

const SHARE_OF_PICTURE = 0.95

/** The separation's differences over a picture, and those of the best mixture on a grid, by CIEDE2000. */
export function separationQuality(
  picture: TestPicture,
  { inks, side, steps }: Readonly<{ inks: readonly Ink[]; side: number; steps: number }>,
): Quality {
  const primaries = estimatedPrimaries(inks)
  const table = spotTable(inks)
  const grid = gridOf(inks, steps)
  const into = new Uint16Array(inks.length)
  const [own, best]: [number[], number[]] = [[], []]
  const known = new Map<string, readonly [number, number]>()
  for (let at = 0; at < side ** 2; at++) {
    const colour = picture.colourAt(
      ((at % side) + 0.5) / side,
      (Math.floor(at / side) + 0.5) / side,
    )
    const found = known.get(colour.join())
    if (found === undefined) {
      const target = labFromSrgb([colour[0] / 255, colour[1] / 255, colour[2] / 255])
      spotTones(table, colour, into)
      const mine = ciede2000(
        printed(
          [...into].map((tone) => tone / SOLID),
          primaries,
        ),
        target,
      )
      known.set(colour.join(), [mine, bestOn(grid, target)])
    }
    const [mine = 0, least = 0] = known.get(colour.join()) ?? []
    own.push(mine)
    best.push(least)
  }
  return { ...summed(own, ['mean', 'p95']), ...summed(best, ['bestMean', 'bestP95']) }
}

function summed<Mean extends string, P95 extends string>(
  values: readonly number[],
  [mean, p95]: readonly [Mean, P95],
): Readonly<Record<Mean | P95, number>> {
  const ordered = values.toSorted((one, other) => one - other)
  const sum = values.reduce((all, value) => all + value, 0)
  return {
    [mean]: sum / values.length,
    [p95]: ordered[Math.ceil(SHARE_OF_PICTURE * values.length) - 1] ?? 0,
  } as Readonly<Record<Mean | P95, number>>
}
