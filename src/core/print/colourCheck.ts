import { ciede2000 } from '../colour/ciede2000.ts'
import { xyz50FromLab } from '../colour/lab.ts'
import type { Lab, Srgb } from '../colour/space.ts'
import { labFromSrgb, storedLight } from '../colour/srgb.ts'
import { linearLight } from '../inspection/linearLight.ts'

/** A colour as it was seen, and within how much of CIEDE2000 nine in ten such readings are right. */
export type SeenColour = Readonly<{ lab: Lab; doubtDeltaE: number }>

/** Two instruments read the same patch so far apart, now and then. Judged. */
const INSTRUMENT_DELTA_E = 1
/** One reading alone says nothing of an uneven print. Judged. */
const ONE_READING_DELTA_E = 1.5
/** A camera's three filters are not an eye's. From memory: 5 to 10. */
const CAMERA_DELTA_E = 8
/** Nine in ten lie within so many sd of a bell. */
const NINE_IN_TEN = 1.645

/**
 * The mean of readings of one patch, and its doubt: their scatter and the instrument's own.
 *
 * @param readings CIELAB under D50, at least one
 * @source cie-lab, sharma2005
 */
export function measuredColour(readings: readonly Lab[]): SeenColour {
  if (readings.length === 0) throw new RangeError('readings: expected at least 1, got 0')
  const mean = (at: 0 | 1 | 2): number =>
    readings.reduce((sum, lab) => sum + lab[at], 0) / readings.length
  const lab: Lab = [mean(0), mean(1), mean(2)]
  const scatter =
    readings.length === 1
      ? ONE_READING_DELTA_E
      : (NINE_IN_TEN *
          Math.sqrt(
            readings.reduce((sum, each) => sum + ciede2000(lab, each) ** 2, 0) /
              (readings.length - 1),
          )) /
        Math.sqrt(readings.length)
  return { lab, doubtDeltaE: Math.hypot(scatter, INSTRUMENT_DELTA_E) }
}

/** A patch of a photo: its mean colour, stored sRGB 0 … 1. */
export type PhotoColour = Readonly<{ patch: Srgb; card: Srgb }>

/**
 * The colour of a patch by a grey card in the same light: in each channel of linear light the card
 * is made grey of its known lightness, and the patch goes with it.
 *
 * @param card seen beside the patch; its true lightness cardL 10 … 99 (18 % grey is 49.5)
 * @throws RangeError where the card is black or burnt out in a channel
 * @source grey-card, srgb
 * @limits the camera is taken for an eye, and light for even over both: the doubt is 8 and more
 */
export function colourFromPhoto(
  { patch, card }: PhotoColour,
  { cardL }: Readonly<{ cardL: number }>,
): SeenColour {
  if (!(cardL >= 10 && cardL <= 99)) throw new RangeError(`cardL: expected 10 to 99, got ${cardL}`)
  const grey = xyz50FromLab([cardL, 0, 0])[1]
  if (!card.every((channel) => channel > 0.02 && channel < 0.995)) {
    throw new RangeError('card: expected a grey that is neither black nor burnt out')
  }
  const asLit = (at: 0 | 1 | 2): number =>
    storedLight((linearLight(patch[at]) * grey) / linearLight(card[at]))
  // A burnt-out channel has lost what it saw.
  const burnt = Math.max(...patch) >= 0.995 ? CAMERA_DELTA_E : 0
  return {
    lab: labFromSrgb([asLit(0), asLit(1), asLit(2)]),
    doubtDeltaE: Math.hypot(CAMERA_DELTA_E, burnt),
  }
}

export type ColourVerdict = 'agrees' | 'differs' | 'cannot tell'

/** An edition's colour may lie so far from its proof. Judged: seen side by side, not alone. */
export const COLOUR_TOLERANCE = 3

/**
 * How a print's colour stands to its proof; where the doubt is larger than what could be said, that
 * is the answer.
 *
 * @source sharma2005
 */
export function colourVerdict(
  { lab, doubtDeltaE }: SeenColour,
  { wanted, tolerance = COLOUR_TOLERANCE }: Readonly<{ wanted: Lab; tolerance?: number }>,
): Readonly<{ deltaE: number; verdict: ColourVerdict }> {
  const deltaE = ciede2000(wanted, lab)
  if (deltaE - doubtDeltaE > tolerance) return { deltaE, verdict: 'differs' }
  return { deltaE, verdict: deltaE + doubtDeltaE <= tolerance ? 'agrees' : 'cannot tell' }
}
