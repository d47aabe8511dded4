import { ciede2000 } from '../colour/ciede2000.ts'
import type { Lab } from '../colour/space.ts'
import { labFromSrgb } from '../colour/srgb.ts'

const PAPER: Lab = [100, 0, 0]

/** Which ink a colour is nearest to; `inks.length` where it is white paper. */
export type NearestInk = (red: number, green: number, blue: number) => number

/**
 * The nearest ink by CIEDE2000, white paper among them; each colour is looked at once.
 *
 * @param inks at most 254, each with the colours that it takes
 */
export function nearestInk(inks: readonly (readonly Lab[])[]): NearestInk {
  const known = new Uint8Array(2 ** 24).fill(UNKNOWN)
  const choices = [...inks.flat(), PAPER]
  const owners = [...inks.flatMap((colours, ink) => colours.map(() => ink)), inks.length]
  return (red, green, blue) => {
    const key = (red << 16) | (green << 8) | blue
    const found = known[key] ?? UNKNOWN
    if (found !== UNKNOWN) return found
    const lab = labFromSrgb([red / 255, green / 255, blue / 255])
    let [nearest, least] = [0, Number.POSITIVE_INFINITY]
    choices.forEach((choice, at) => {
      // a difference in lightness alone is no larger than all of it
      if (Math.abs(lab[0] - choice[0]) / MOST_SL >= least) return
      const difference = ciede2000(lab, choice)
      if (difference < least) [nearest, least] = [owners[at] ?? 0, difference]
    })
    known[key] = nearest
    return nearest
  }
}

const UNKNOWN = 255
/** The most that CIEDE2000 divides a difference in lightness by: at L' of 0 and of 100. */
const MOST_SL: number = 1 + (0.015 * 50 ** 2) / Math.sqrt(20 + 50 ** 2)
