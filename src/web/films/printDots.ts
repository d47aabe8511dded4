import { xyz50FromLab } from '../../core/colour/lab.ts'
import { srgbFromXyz50 } from '../../core/colour/srgb.ts'
import type { FilmPlan, Ink } from '../../core/separation/plan.ts'
import { estimatedPrimaries } from '../../core/separation/primaries.ts'

/**
 * What dots of all plates on each other look like: where two inks meet, and where paper shows between.
 *
 * @param plates the bits of each, a byte a pixel, first printed first
 * @param inks one for each plate
 * @returns stored sRGB, three a pixel
 */
export function printDots(
  plates: readonly Uint8Array[],
  { inks, paper }: Readonly<{ inks: readonly Ink[]; paper: FilmPlan['paper'] | null }>,
): Uint8Array {
  const ground = paper === null || paper === undefined ? {} : { paper: xyz50FromLab(paper) }
  const colours = Uint8Array.from(
    estimatedPrimaries(inks, ground).flatMap((xyz) =>
      srgbFromXyz50(xyz).map((value) => Math.round(255 * Math.min(1, Math.max(0, value)))),
    ),
  )
  const places = plates[0]?.length ?? 0
  const rgb = new Uint8Array(3 * places)
  for (let at = 0; at < places; at++) {
    const which = plates.reduce((sum, plate, place) => sum + (plate[at] === 1 ? 2 ** place : 0), 0)
    rgb.set(colours.subarray(3 * which, 3 * which + 3), 3 * at)
  }
  return rgb
}
