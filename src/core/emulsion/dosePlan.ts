import type { Lu } from '../units/quantity.ts'

/**
 * `durable`: some dose hardens the coat through and opens the mark. `holds`: some dose opens the
 * mark and stays in the mesh, soft inside. `no dose`: what opens the mark washes off.
 */
export type DoseVerdict = 'durable' | 'holds' | 'no dose'

/** A dose for one screen and the weakest mark on it, and how much room there is. */
export type DosePlan = Readonly<{
  kind: 'dose'
  verdict: DoseVerdict
  /** The hold dose. */
  lowLu: Lu
  /** The full dose. */
  fullLu: Lu
  /** The fog limit of the weakest mark that must print. */
  highLu: Lu
  recommendedLu: Lu
  /** From low to high in steps of 0.15 D; below 0, so many are missing. */
  latitudeSteps: number
  reasons: readonly string[]
  advice: readonly string[]
}>
