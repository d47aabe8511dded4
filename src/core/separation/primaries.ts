import { WHITE_D50, xyz50FromLab } from '../colour/lab.ts'
import type { Xyz } from '../colour/space.ts'
import type { Ink } from './plan.ts'

/**
 * What each combination of solid inks reflects, in the order of `demichelWeights`: an
 * estimate from the single inks. A clear ink lets through of what is under it what it lets through
 * of paper; an opaque one shows itself.
 *
 * @param inks in the order in which they are printed, each with its colour
 * @param paper what they are printed on; white where it is not said
 * @returns XYZ under D50
 * @source ink-over-ink
 */
export function estimatedPrimaries(
  inks: readonly Ink[],
  { paper = WHITE_D50 }: Readonly<{ paper?: Xyz }> = {},
): readonly Xyz[] {
  let combinations: readonly Xyz[] = [paper]
  for (const ink of inks)
    combinations = [...combinations, ...combinations.map((under) => over(ink, under))]
  return combinations
}

function over({ lab, opacity }: Ink, under: Xyz): Xyz {
  const solid = lab === null ? WHITE_D50 : xyz50FromLab(lab)
  const part = (at: 0 | 1 | 2): number =>
    solid[at] * (opacity + (1 - opacity) * (under[at] / WHITE_D50[at]))
  return [part(0), part(1), part(2)]
}
