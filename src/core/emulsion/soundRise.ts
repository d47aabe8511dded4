import type { Um } from '../units/quantity.ts'

/** How far over the hold dose, log10, a coat is sound, and how surely. */
export type SoundRise = Readonly<{
  log10: number
  /** What the coat's thickness adds to the doubt that every coat has; 0 up to the trusted depth. */
  extraSd: number
}>

/** Doubt in log10(sound/hold) of any coat.
 * @source sound-dose */
export const SOUND_SD = 0.15

/** For each um from the anchor depth to the far side.
 * @source sound-dose */
const PER_UM = 0.45 / 60
/**
 * So far down the rise is carried. There, at the part of the depth that 0.45 means on the default
 * coat, the absorbing model asks 0.75 and the bleaching one 0.65; further down they part: 2.9 and
 * 1.6 for a fabric of 10 threads.
 *
 * @source sound-dose
 */
const TRUSTED_UM = 100
/** Doubt that each um beyond adds.
 * @source sound-dose */
const EXTRA_SD_PER_UM = 0.0015

/**
 * log10(sound/hold) = 0.45 · (t − a)/60 um, carried no further than 100 um: a thicker coat is taken
 * for one of those, with a doubt that grows by 0.0015 a um.
 *
 * @source sound-dose
 * @limits a judged prior; nothing is measured in it
 */
export function soundRise({
  thicknessUm,
  anchorDepthUm,
}: Readonly<{ thicknessUm: Um; anchorDepthUm: Um }>): SoundRise {
  const riseUm = thicknessUm - anchorDepthUm
  return {
    log10: PER_UM * Math.min(riseUm, TRUSTED_UM),
    extraSd: EXTRA_SD_PER_UM * Math.max(0, riseUm - TRUSTED_UM),
  }
}
