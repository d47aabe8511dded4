import { plainName } from '../units/plainName.ts'
import { type Density, density } from '../units/quantity.ts'

/** A number drawn on a normal curve. */
export type DensityPrior = Readonly<{ mean: Density; sd: Density }>

/**
 * What marks are made with, named for its weakest mark that must print and not for its solid:
 * that mark sets the dose.
 */
export type Medium = Readonly<{
  name: string
  /** Effective density above base of the weakest mark that must print, at the usual mark sizes. */
  weakest: DensityPrior
  /** A large solid of it, above base, where that is another story; null when not known. */
  solid: Readonly<{ low: Density; high: Density }> | null
  status: 'judged'
}>

/** Between one film and the next in the same medium, same hand: sd of the weakest mark, D.
 * @source media-priors */
export const FILM_TO_FILM_SD: Density = density(0.1)

/**
 * What is believed of a medium before the shop's own readings replace it.
 *
 * @source media-priors
 * @limits judged, for marks as people make them; with the film itself read, its own effective
 * densities are used instead
 */
export const MEDIA: readonly Medium[] = [
  medium('soft pencil', { mean: 0.93, sd: 0.2 }),
  medium('fine pigment pen', { mean: 0.93, sd: 0.2 }),
  medium('graphite wash', { mean: 0.6, sd: 0.25 }),
  medium('litho crayon', { mean: 0.9, sd: 0.25 }),
  medium('drawing ink', { mean: 1.2, sd: 0.22 }),
  medium('grease marker', { mean: 1.2, sd: 0.22 }),
  medium('laser toner', { mean: 1.4, sd: 0.3 }),
  medium('opaque paint', { mean: 1.5, sd: 0.3 }),
  medium('inkjet film', { mean: 1.7, sd: 0.3 }, { low: 2.5, high: 3 }),
  medium('cut masking film', { mean: 1.8, sd: 0.3 }, { low: 3.5, high: 4 }),
]

/** The medium of that name, however it is capitalised and spaced; null for one not in the table.
 * @source media-priors */
export function mediumNamed(name: string): Medium | null {
  const plain = plainName(name)
  return MEDIA.find((medium) => medium.name === plain) ?? null
}

function medium(
  name: string,
  weakest: Readonly<{ mean: number; sd: number }>,
  solid: Readonly<{ low: number; high: number }> | null = null,
): Medium {
  return {
    name,
    weakest: { mean: density(weakest.mean), sd: density(weakest.sd) },
    solid: solid && { low: density(solid.low), high: density(solid.high) },
    status: 'judged',
  }
}
