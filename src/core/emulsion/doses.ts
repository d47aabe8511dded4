import { baseDensityFactor } from '../film/density.ts'
import { type Density, type Doubtful, type Lu, lu, type Um } from '../units/quantity.ts'
import { expectIn, type Range } from '../units/range.ts'
import { absorbingLaw } from './absorbing.ts'
import { bleachingLaw } from './bleaching.ts'
import type { CureLaw } from './cureLaw.ts'
import { EMULSION_RANGES, type Emulsion, expectEmulsion } from './emulsion.ts'
import { SOUND_SD, soundRise } from './soundRise.ts'

/** The three doses at the surface under clear film that part the four states of a stencil. */
export type SurfaceDoses = Readonly<{
  /** Skin: below it the place washes clean. */
  gelDoseLu: Lu
  /** Hold: from here it stays in the mesh through washout. */
  holdDoseLu: Lu
  /** Full: from here it is hard on the squeegee side too. */
  throughDoseLu: Lu
}>

/** A dose that arrives at the surface, from darkness up. */
export const SURFACE_DOSE: Range = { name: 'surface dose', low: 0, high: 1e300, unit: 'lu' }

/**
 * Skin, hold and full dose of a coat: the surface doses that cure to depth 0, to the anchor depth
 * and through the whole thickness.
 *
 * @param emulsion within EMULSION_RANGES, anchor depth at most the thickness
 * @returns gelDoseLu ≤ holdDoseLu ≤ throughDoseLu
 * @throws RangeError outside these ranges
 * @source jacobs1992, dill1975
 */
export function surfaceDoses(emulsion: Emulsion): SurfaceDoses {
  const law = lawOf(emulsion)
  const gelDoseLu = law.skinDoseLu
  // The order holds to the last bit, also where two of the depths are one.
  const holdDoseLu = lu(Math.max(gelDoseLu, law.doseLu(emulsion.anchorDepthUm)))
  const throughDoseLu = lu(Math.max(holdDoseLu, law.doseLu(emulsion.thicknessUm)))
  return { gelDoseLu, holdDoseLu, throughDoseLu }
}

/**
 * How deep a surface dose cures, were the coat thick enough.
 *
 * @param doseLu at the surface, 0 … 1e300 lu
 * @returns um from the print side; 0 up to the skin dose
 * @throws RangeError outside these ranges
 * @source jacobs1992, dill1975
 */
export function cureDepthUm(emulsion: Emulsion, doseLu: Lu): Um {
  expectIn(doseLu, SURFACE_DOSE)
  return lawOf(emulsion).depthUm(doseLu)
}

/**
 * The surface dose that cures to a depth.
 *
 * @param depthUm 0 … 1000 um from the print side
 * @throws RangeError outside these ranges
 * @source jacobs1992, dill1975
 */
export function doseForDepthLu(emulsion: Emulsion, depthUm: Um): Lu {
  expectIn(depthUm, { ...EMULSION_RANGES.anchorDepthUm, name: 'depthUm' })
  return lawOf(emulsion).doseLu(depthUm)
}

/**
 * The same doses as they must be set when the film has a base that takes light: × 10^base.
 *
 * @param baseDensity 0 … 3 D
 * @throws RangeError outside that range
 * @source iso5-1
 */
export function dosesUnderBase(doses: SurfaceDoses, baseDensity: Density): SurfaceDoses {
  const factor = baseDensityFactor(baseDensity)
  return {
    gelDoseLu: lu(factor * doses.gelDoseLu),
    holdDoseLu: lu(factor * doses.holdDoseLu),
    throughDoseLu: lu(factor * doses.throughDoseLu),
  }
}

/**
 * The sound dose, what people call good: between hold and full, until graded screens tell.
 *
 * log10(sound/hold) is 0.45 ± 0.15 for the default coat, and rises with thickness.
 *
 * @returns lu, with the 90 % range (1.645 sd)
 * @throws RangeError for an emulsion outside its ranges
 * @source sound-dose
 * @limits a judged prior; nothing is measured in it
 */
export function soundDoseLu(emulsion: Emulsion): Doubtful {
  const { holdDoseLu } = surfaceDoses(emulsion)
  const rise = soundRise(emulsion)
  const value = holdDoseLu * 10 ** rise.log10
  const either = 10 ** (1.645 * Math.hypot(SOUND_SD, rise.extraSd))
  return { value, low: value / either, high: value * either, confidence: 0.9 }
}

/** The one place where a model's name becomes its law: a new model is a file and a case here. */
function lawOf(emulsion: Emulsion): CureLaw {
  expectEmulsion(emulsion)
  switch (emulsion.model) {
    case 'absorbing':
      return absorbingLaw(emulsion)
    case 'bleaching':
      return bleachingLaw(emulsion)
  }
}
