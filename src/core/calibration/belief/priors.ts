import { SOUND_SD } from '../../emulsion/soundRise.ts'
import { MEDIA, mediumNamed } from '../../film/media.ts'

/** What is believed of one number before anybody has told us anything; log10 units (D). */
export type Prior = Readonly<{ mean: number; sd: number }>

type PriorName =
  | 'hold'
  | 'skin'
  | 'sound'
  | 'unit'
  | 'batch'
  | 'fabric'
  | 'dyed fabric'
  | 'recipe'
  | 'screen'
  | 'film'

/**
 * What differs from shop to shop and from day to day, each as a normal curve in log10 of dose.
 *
 * `hold` is the hold dose of the reference set-up, 10.3 lu; `skin` is log10(hold/skin), `sound`
 * log10(sound/hold). The others shift every dose alike; screen and film are drawn anew each time.
 *
 * @source belief-priors
 */
export const PRIORS: Readonly<Record<PriorName, Prior>> = {
  hold: { mean: 1.013, sd: 0.15 },
  skin: { mean: 0.235, sd: 0.08 },
  sound: { mean: 0.45, sd: SOUND_SD },
  unit: { mean: 0, sd: 0.12 },
  batch: { mean: 0, sd: 0.06 },
  fabric: { mean: 0, sd: 0.08 },
  'dyed fabric': { mean: 0.18, sd: 0.08 },
  recipe: { mean: 0, sd: 0.06 },
  screen: { mean: 0, sd: 0.05 },
  film: { mean: 0, sd: 0.1 },
}

/**
 * Scale of a counter that counts in nobody knows what: sd of its log10 beside a unit's own.
 *
 * @source counter-scale
 */
export const UNKNOWN_SCALE: Readonly<{ sd: number }> = { sd: 0.5 }

/** Of a unit of that name, whose counter may have a scale of its own. @source counter-scale */
export function unitPrior(unit: string, scaleSd: ReadonlyMap<string, number> | undefined): Prior {
  const { mean, sd } = PRIORS.unit
  return { mean, sd: Math.hypot(sd, scaleSd?.get(unit) ?? 0) }
}

/**
 * How the hold dose wanders: variance of its log10 for each day and each hour of the lamp. A unit
 * that counts plain seconds follows its lamp ten times as fast. No silence, and no slip in a date
 * or in a lamp's hours, moves either further than `most`: a factor of 1.7 either way.
 *
 * @source belief-priors
 */
export const WALK = {
  perDay: 5e-5,
  perLampHour: 2e-5,
  perLampHourInSeconds: 2e-4,
  most: 0.05,
} as const

/**
 * A sudden change of the hold dose: sd of its log10, chance on one day, chance where the lamp's
 * hours say that the lamp is a new one.
 *
 * @source belief-priors
 */
export const JUMP: Readonly<{ sd: number; chancePerDay: number; chanceWithNewLamp: number }> = {
  sd: 0.2,
  chancePerDay: 1 / 300,
  chanceWithNewLamp: 0.5,
}

/**
 * Density of the weakest mark that must print in a medium: the table's, or for another name an
 * even mixture of the whole table, which is broad: 1.22 ± 0.45.
 *
 * @source media-priors
 */
export function mediumPrior(name: string): Prior {
  const known = mediumNamed(name)
  if (known !== null) return known.weakest
  const mean = MEDIA.reduce((sum, { weakest }) => sum + weakest.mean, 0) / MEDIA.length
  const square =
    MEDIA.reduce((sum, { weakest }) => sum + weakest.sd ** 2 + weakest.mean ** 2, 0) / MEDIA.length
  return { mean, sd: Math.sqrt(square - mean ** 2) }
}
