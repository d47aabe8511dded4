import { DOSE } from '../core/light/doseField.ts'
import { numberIn, type Reads } from './reads.ts'

/** A dose in light units, whatever it is the dose of. */
export function doseOf(what: string, like: number): Reads<number> {
  return numberIn(DOSE, { what, units: 'light units', like, shown: 'LU' })
}
