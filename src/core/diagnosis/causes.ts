import { type Cause, type CauseName, HANDLING_NAMES, HARDENING_NAMES } from './cause.ts'
import { CAUSES_OF_HANDLING } from './causesOfHandling.ts'
import { CAUSES_OF_HARDENING } from './causesOfHardening.ts'

/**
 * Causes, signs and links in one table. Shares and links are judged; what a shop confirms moves them
 * (`learned.ts`). No manual and no safety data sheet is replaced by an act named here.
 */
export const CAUSES: Readonly<Record<CauseName, Cause>> = {
  ...CAUSES_OF_HARDENING,
  ...CAUSES_OF_HANDLING,
}

export const CAUSE_NAMES: readonly CauseName[] = [...HARDENING_NAMES, ...HANDLING_NAMES]

/** True for the name of a cause. */
export function isCause(name: string): name is CauseName {
  return Object.hasOwn(CAUSES, name)
}
