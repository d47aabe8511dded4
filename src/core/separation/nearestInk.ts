import { ciede2000 } from '../colour/ciede2000.ts'
import type { Lab } from '../colour/space.ts'
import { labFromLevels } from '../colour/srgb.ts'

const PAPER: Lab = [100, 0, 0]

/** Which ink a colour is nearest to; `inks.length` where it is white paper. */
export type NearestInk = (red: number, green: number, blue: number) => number

/**
 * The nearest ink by CIEDE2000, white paper among them; each colour is looked at once.
 *
 * @param inks at most 254, each with the colours that it takes
 * @param soft for looking from afar: the first colour met within 8 levels speaks for all of them
 */
export function nearestInk(
  inks: readonly (readonly Lab[])[],
  { soft = false }: Readonly<{ soft?: boolean }> = {},
): NearestInk {
  const lost = soft ? 3 : 0
  const known = new Uint8Array(2 ** (24 - 3 * lost)).fill(UNKNOWN)
  const choices = [...inks.flat(), PAPER]
  const owners = [...inks.flatMap((colours, ink) => colours.map(() => ink)), inks.length]
  const bits = 8 - lost
  return (red, green, blue) => {
    const key = ((red >> lost) << (2 * bits)) | ((green >> lost) << bits) | (blue >> lost)
    const found = known[key] ?? UNKNOWN
    if (found !== UNKNOWN) return found
    const lab = labFromLevels(red, green, blue)
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
