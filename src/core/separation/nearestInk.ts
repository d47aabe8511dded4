import { ciede2000 } from '../colour/ciede2000.ts'
import type { Lab } from '../colour/space.ts'
import { labFromSrgb } from '../colour/srgb.ts'

const PAPER: Lab = [100, 0, 0]

/** Which ink a colour is nearest to; `inks.length` where it is white paper. */
export type NearestInk = (red: number, green: number, blue: number) => number

/**
 * The nearest ink by CIEDE2000, white paper among them; each colour is looked at once.
 *
 * @param inks at most 254
 */
export function nearestInk(inks: readonly Lab[]): NearestInk {
  const known = new Uint8Array(2 ** 24).fill(UNKNOWN)
  const choices = [...inks, PAPER]
  return (red, green, blue) => {
    const key = (red << 16) | (green << 8) | blue
    const found = known[key] ?? UNKNOWN
    if (found !== UNKNOWN) return found
    const lab = labFromSrgb([red / 255, green / 255, blue / 255])
    const differences = choices.map((choice) => ciede2000(lab, choice))
    const nearest = differences.indexOf(Math.min(...differences))
    known[key] = nearest
    return nearest
  }
}

const UNKNOWN = 255
