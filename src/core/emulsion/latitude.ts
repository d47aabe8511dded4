import { type Lu, lu } from '../units/quantity.ts'
import type { DosePlan, DoseVerdict } from './dosePlan.ts'
import type { SurfaceDoses } from './doses.ts'
import { adviceFor, reasonsFor } from './latitudeWords.ts'

/** One step of the usual wedge, as a ratio of doses. */
const STEP = 10 ** 0.15
/** Half a step under the fog limit is the least margin worth having. */
const MARGIN = 10 ** 0.075
/** With step 7 (0.95 D) the last solid one, clear film has 10^0.95 times the hold dose. */
const STEP_SEVEN = 10 ** 0.95

/**
 * Is there a dose that opens the weakest mark and keeps the stencil, and which one to set.
 *
 * With a step or more between full dose and fog limit: the middle of the two in steps, but no more
 * than makes step 7 solid, for more buys nothing. With less than a step: half a step under the fog
 * limit, but never below the middle between hold dose and fog limit, so that the stencil stays.
 * (For `no dose` that middle lies above the fog limit: it is a number to try, not a promise.)
 *
 * @param limits highLu, the fog limit; doses, with gel ≤ hold ≤ through; a film base counted in
 * on both, or on neither
 * @returns recommendedLu between lowLu and highLu unless the verdict is `no dose`
 * @throws RangeError when a dose is not above 0 and finite, or their order is another
 * @source latitude-practice, step-seven
 * @limits for a set-up taken as certain; where the calibration is in doubt its own rule applies
 */
export function planDose({
  highLu,
  doses,
}: Readonly<{ highLu: Lu; doses: SurfaceDoses }>): DosePlan {
  const { gelDoseLu, holdDoseLu: lowLu, throughDoseLu: fullLu } = doses
  expectDose('highLu', highLu, 0)
  expectDose('gelDoseLu', gelDoseLu, 0)
  expectDose('holdDoseLu', lowLu, gelDoseLu)
  expectDose('throughDoseLu', fullLu, lowLu)
  const limits = { lowLu, fullLu, highLu }
  const verdict = verdictOf(limits)
  const recommendedLu = recommended(limits)
  const latitudeSteps = Math.log10(highLu / lowLu) / 0.15
  const spoken = { ...limits, verdict, recommendedLu, latitudeSteps }
  return { kind: 'dose', ...spoken, reasons: reasonsFor(spoken), advice: adviceFor(spoken) }
}

type Limits = Readonly<{ lowLu: Lu; fullLu: Lu; highLu: Lu }>

function verdictOf({ lowLu, fullLu, highLu }: Limits): DoseVerdict {
  if (fullLu < highLu) return 'durable'
  return lowLu < highLu ? 'holds' : 'no dose'
}

function recommended({ lowLu, fullLu, highLu }: Limits): Lu {
  if (highLu / fullLu < STEP) return lu(Math.max(highLu / MARGIN, Math.sqrt(lowLu * highLu)))
  return lu(Math.min(Math.sqrt(fullLu * highLu), lowLu * STEP_SEVEN))
}

function expectDose(name: string, value: number, least: number): void {
  if (value > 0 && value >= least && value < Number.POSITIVE_INFINITY) return
  const expected = least > 0 ? `at least ${least} lu` : 'above 0 lu'
  throw new RangeError(`${name}: expected ${expected} and finite, got ${value}`)
}
