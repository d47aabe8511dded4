import { empiricalDepositUm, wetDepositUm } from '../fabric/deposit.ts'
import type { Fabric } from '../fabric/geometry.ts'
import type { Doubtful, Share, Um } from '../units/quantity.ts'
import { expectIn, type Range } from '../units/range.ts'

/** Ink that must stand before the squeegee, whatever is printed: 100 to 200 cm³. */
export const USUAL_POT_CM3 = 150
/** A water-based ink: a little heavier than water. Judged. */
export const USUAL_INK_DENSITY = 1.15

const POT: Range = { name: 'potCm3', low: 0, high: 5000, unit: 'cm³' }
const DENSITY: Range = { name: 'inkGramsPerCm3', low: 0.7, high: 3, unit: 'g/cm³' }
const COVERED: Range = { name: 'coveredCm2', low: 0, high: 100_000, unit: 'cm²' }
const SHEETS: Range = { name: 'sheets', low: 0, high: 1_000_000, unit: 'sheets', whole: true }
/** How often the truth lies between theory and experience. Judged. */
const CHANCE = 0.7

/**
 * Wet film that a screen lays down: between what the fabric and its stencil hold and what was found
 * by experience. `value` is their mean.
 *
 * @param stencil EOM = emulsionOverMeshUm 0 … 500; edgeShare 0 … 1 of the image close to an edge
 * @throws RangeError outside these ranges
 * @source wet-film, deposit2000
 */
export function wetFilmUm(
  fabric: Fabric,
  stencil: Readonly<{ emulsionOverMeshUm: Um; edgeShare: Share }>,
): Doubtful {
  const theory = wetDepositUm(fabric, stencil)
  const experience = empiricalDepositUm({ ...fabric, weave: 'plain' })
  return {
    value: (theory + experience) / 2,
    low: Math.min(theory, experience),
    high: Math.max(theory, experience),
    confidence: CHANCE,
  }
}

/** Ink of one layer for a whole edition. */
export type EditionInk = Readonly<{
  /** What stays on the paper of all sheets. */
  onPaperCm3: Doubtful
  potCm3: number
  /** To be mixed: enough at the high end, and the pot. */
  mixCm3: number
  mixG: number
  /** What can be expected to be left over: the pot, and what the high end was too much. */
  leftG: number
}>

/**
 * Ink for an edition: covered area · wet film · sheets + the pot.
 *
 * @param layer coveredCm2 of one print 0 … 100,000; wetFilmUm with its doubt
 * @param run sheets whole, 0 … 1,000,000; potCm3 0 … 5000; inkGramsPerCm3 0.7 … 3
 * @throws RangeError outside these ranges
 * @source edition-ink
 * @limits what stays in the fabric and in the tin is the pot's
 */
export function editionInk(
  { coveredCm2, wetFilmUm: film }: Readonly<{ coveredCm2: number; wetFilmUm: Doubtful }>,
  {
    sheets,
    potCm3 = USUAL_POT_CM3,
    inkGramsPerCm3 = USUAL_INK_DENSITY,
  }: Readonly<{ sheets: number; potCm3?: number; inkGramsPerCm3?: number }>,
): EditionInk {
  expectIn(coveredCm2, COVERED)
  expectIn(sheets, SHEETS)
  expectIn(potCm3, POT)
  expectIn(inkGramsPerCm3, DENSITY)
  // 1 um over 1 cm² is 0.0001 cm³
  const cm3 = (um: number): number => coveredCm2 * um * 1e-4 * sheets
  const onPaperCm3 = {
    value: cm3(film.value),
    low: cm3(film.low),
    high: cm3(film.high),
    confidence: film.confidence,
  }
  const mixCm3 = onPaperCm3.high + potCm3
  return {
    onPaperCm3,
    potCm3,
    mixCm3,
    mixG: mixCm3 * inkGramsPerCm3,
    leftG: (mixCm3 - onPaperCm3.value) * inkGramsPerCm3,
  }
}
